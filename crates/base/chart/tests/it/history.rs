//! What was fitted, looked at and taken out. All of it is invented.

use chart::{Found, Happening, HistoryChart, Look, Piece, When, history};

use crate::paper::{assert_apart, assert_on_paper, lines, strokes, words};

fn when(at: f64) -> When {
    When {
        at,
        text: format!("{at:.0} h"),
    }
}

fn piece(label: &str, fitted: Option<f64>, looks: &[(f64, Found)], out: Option<f64>) -> Piece {
    let look = |(at, found): &(f64, Found)| Look {
        when: when(*at),
        found: *found,
    };
    Piece {
        label: label.to_owned(),
        note: String::new(),
        fitted: fitted.map(when),
        looks: looks.iter().map(look).collect(),
        out: out.map(when),
    }
}

fn event(at: f64, mark: &str, words: &str) -> Happening {
    Happening {
        when: when(at),
        mark: mark.to_owned(),
        words: words.to_owned(),
    }
}

fn bench() -> HistoryChart {
    HistoryChart {
        title: "What was fitted and looked at".to_owned(),
        along: "engine hours".to_owned(),
        ticks: (0..=6)
            .map(|n| (100.0 * f64::from(n), format!("{}", 100 * n)))
            .collect(),
        now: when(600.0),
        pieces: vec![
            piece(
                "wear ring 1",
                None,
                &[
                    (60.0, Found::Good),
                    (150.0, Found::Worn),
                    (210.0, Found::Struck),
                ],
                Some(210.0),
            ),
            piece(
                "wear ring 2",
                Some(210.0),
                &[
                    (300.0, Found::Good),
                    (390.0, Found::Worn),
                    (470.0, Found::Failed),
                ],
                Some(470.0),
            ),
            piece("wear ring 3", Some(470.0), &[(520.0, Found::Good)], None),
            piece(
                "impeller <A>",
                Some(0.0),
                &[
                    (60.0, Found::Good),
                    (205.0, Found::Worn),
                    (210.0, Found::Worn),
                    (214.0, Found::Good),
                ],
                None,
            ),
        ],
        events: vec![
            event(208.0, "S", "strike on a rock"),
            event(212.0, "L", "loss of thrust"),
            event(455.0, "A", "sand"),
        ],
    }
}

fn svg(chart: &HistoryChart) -> String {
    history(chart).into_string()
}

/// Hours 0 to 600 from x 10 to 322.
fn hours(x: f64) -> f64 {
    (x - 10.0) / (322.0 - 10.0) * 600.0
}

#[test]
fn law_a_line_runs_from_fitting_to_taking_out() {
    let svg = svg(&bench());
    let lives = strokes(&svg, "stroke-ink heavy");
    let ends = |life: &[(f64, f64)]| (hours(life[0].0), hours(life[1].0));
    assert_eq!(lives.len(), 3);
    let second = ends(&lives[0]);
    assert!((second.0 - 210.0).abs() < 0.1 && (second.1 - 470.0).abs() < 0.1);
    // The first has no beginning: it is broken and starts at the edge.
    let first = ends(&strokes(&svg, "stroke-ink heavy dash-short")[0]);
    assert!(first.0.abs() < 0.1 && (first.1 - 210.0).abs() < 0.1);
    // Two run on: an arrow each.
    let open = strokes(&svg, "stroke-ink bold")
        .into_iter()
        .filter(|path| path.len() == 3);
    assert_eq!(open.count(), 2);
}

#[test]
fn law_signs_differ_by_shape_and_keep_a_thread_to_their_time() {
    let svg = svg(&bench());
    let drawn = svg.split("</desc>").nth(1).unwrap();
    // Drawn once for each look and once in the key.
    assert_eq!(strokes(drawn, "stroke-good bold").len(), 5 + 1);
    assert_eq!(drawn.matches("<circle").count(), 4 + 1);
    assert_eq!(strokes(drawn, "stroke-stop heavy").len(), 2 * (1 + 1));
    assert_eq!(strokes(drawn, "fill-stop stroke-card hair").len(), 1 + 1);
    let threads = strokes(drawn, "stroke-ink fine")
        .into_iter()
        .filter(|path| path[1].1 > path[0].1);
    let times: Vec<f64> = threads.map(|path| hours(path[0].0)).collect();
    let expected = [
        60.0, 150.0, 210.0, 300.0, 390.0, 470.0, 520.0, 60.0, 205.0, 210.0, 214.0,
    ];
    assert_eq!(times.len(), expected.len());
    for (time, expected) in times.iter().zip(expected) {
        assert!((time - expected).abs() < 0.1, "{time} for {expected}");
    }
}

#[test]
fn law_letters_lie_on_no_other_and_each_is_explained_once() {
    let mut many = bench();
    many.events = (0..30)
        .map(|n| {
            event(
                190.0 + f64::from(n),
                if n % 2 == 0 { "S" } else { "A2" },
                if n % 2 == 0 { "strike" } else { "sand" },
            )
        })
        .collect();
    let svg = svg(&many);
    assert_on_paper(&svg);
    assert_apart(&svg, "mark middle text-ink halo");
    let keyed = words(&svg)
        .into_iter()
        .filter(|words| words.class == "mark start text-ink");
    assert_eq!(
        keyed.map(|words| words.said).collect::<Vec<_>>(),
        ["S", "A2"]
    );
}

#[test]
fn law_many_looks_lie_side_by_side_and_what_finds_no_room_is_said() {
    let looks: Vec<(f64, Found)> = (0..22)
        .map(|n| (590.0 + f64::from(n) / 3.0, Found::Worn))
        .collect();
    let mut chart = bench();
    chart.pieces = vec![piece("ring", Some(0.0), &looks, None)];
    let drawn = svg(&chart);
    assert_on_paper(&drawn);
    assert!(!drawn.contains("no room"));
    let mut xs: Vec<f64> = crate::paper::circles(&drawn)
        .iter()
        .map(|circle| circle.0)
        .collect();
    xs.pop(); // the key
    assert!(
        xs.windows(2).all(|pair| pair[1] - pair[0] >= 13.9),
        "{xs:?}"
    );
    let looks = &mut chart.pieces[0].looks;
    looks.extend_from_within(..);
    let drawn = svg(&chart);
    assert_on_paper(&drawn);
    assert!(
        drawn.contains("There is no room to draw 20 looks."),
        "{drawn}"
    );
}

#[test]
fn law_the_description_holds_all_of_it() {
    let svg = svg(&bench());
    assert!(svg.contains("wear ring 1: fitted at a time not known, good at 60 h, worn at 150 h, ruined by a strike at 210 h, taken out at 210 h."), "{svg}");
    assert!(svg.contains("impeller &lt;A&gt;: fitted at 0 h,") && svg.contains("still running."));
    assert!(svg.contains("S: strike on a rock at 208 h."));
}

#[test]
fn law_what_is_no_number_is_left_out_and_said() {
    let mut spoilt = bench();
    spoilt.pieces[0].looks[0].when.at = f64::NAN;
    spoilt.pieces[1].fitted = Some(when(f64::INFINITY));
    spoilt.events[0].when.at = f64::NAN;
    let drawn = svg(&spoilt);
    assert_on_paper(&drawn);
    assert_eq!(
        drawn.matches("A time is no number and left out.").count(),
        2
    );
    assert!(drawn.contains("left out: no number"));
    spoilt.now.at = f64::NAN;
    assert_on_paper(&svg(&spoilt));
    (spoilt.pieces, spoilt.events, spoilt.ticks) = (vec![], vec![], vec![]);
    assert_on_paper(&svg(&spoilt));
}

fn dozen() -> HistoryChart {
    let mut dozen = bench();
    dozen.pieces = (0..12)
        .map(|n| {
            let begin = 45.0 * f64::from(n);
            let found = [Found::Good, Found::Worn, Found::Failed, Found::Struck];
            let looks = [
                (begin + 20.0, found[0]),
                (begin + 45.0, found[usize::try_from(n % 4).unwrap()]),
            ];
            let out = (n % 3 != 2).then_some(begin + 45.0);
            let mut piece = piece(
                "reduction nozzle with the steering nozzle and both pivots",
                Some(begin),
                &looks,
                out,
            );
            if n % 2 == 0 {
                piece.label = format!("wear ring {n}");
                "bought used, without papers, from somebody".clone_into(&mut piece.note);
            }
            piece
        })
        .collect();
    "loss of thrust after weeds, found in the grate and about the shaft"
        .clone_into(&mut dozen.events[1].words);
    dozen
}

#[test]
fn law_a_dozen_pieces_with_long_names_stay_on_the_paper() {
    assert_on_paper(&svg(&dozen()));
}

#[test]
fn regress_what_was_fitted_and_looked_at() {
    insta::assert_snapshot!(lines(&svg(&bench())));
}

#[test]
fn regress_a_dozen_pieces() {
    insta::assert_snapshot!(lines(&svg(&dozen())));
}
