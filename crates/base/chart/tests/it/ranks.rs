//! Shares as bars: as long as they are large, none lost, none off the paper.

use chart::{Rank, RankChart, ranks};

fn chart(shares: &[f64]) -> RankChart {
    let row = |(at, share): (usize, &f64)| Rank {
        label: format!("cause <{at}>"),
        note: if at == 0 { "marked" } else { "" }.into(),
        share: *share,
        text: format!("{:.0}", 100.0 * share),
        first: at == 0,
    };
    RankChart {
        title: "Chances in 100".into(),
        half: "50".into(),
        rows: shares.iter().enumerate().map(row).collect(),
    }
}

/// The widths of the bars, in order.
fn widths(svg: &str) -> Vec<f64> {
    let pieces = svg.split("<rect ").skip(1);
    pieces
        .filter_map(|piece| {
            piece
                .split(" width=\"")
                .nth(1)?
                .split('"')
                .next()?
                .parse()
                .ok()
        })
        .collect()
}

#[test]
fn law_a_bar_is_as_long_as_its_share() {
    let shares = [0.8, 0.4, 0.1];
    let widths = widths(&ranks(&chart(&shares)).into_string());
    for (width, share) in widths.iter().zip(shares) {
        let expected = widths[0] * share / shares[0];
        assert!((width - expected).abs() < 0.2, "{width} for {share}");
    }
    assert_eq!(widths.len(), shares.len());
}

#[test]
fn law_no_share_is_no_bar_and_a_small_one_is_seen() {
    let svg = ranks(&chart(&[1.0, 0.0, f64::NAN, 1.5])).into_string();
    let widths = widths(&svg);
    assert_eq!(widths.len(), 2, "{svg}");
    assert!(widths[0] + 4.0 < 340.0 && widths[1] > 1.0);
    assert_eq!(svg.matches("not known").count(), 2);
    assert!(svg.contains("cause &lt;3&gt;"));
}

#[test]
fn regress_ranked_shares() {
    let svg = ranks(&chart(&[0.62, 0.21, 0.011])).into_string();
    insta::assert_snapshot!(svg.replace("><", ">\n<"));
}
