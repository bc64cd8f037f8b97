//! A QR code as ISO/IEC 18004 wants it.

use chart::{QrTooLong, qr, qr_lines};

const FREE: usize = 4;

/// The dark modules as they are drawn, the free ones around them too: `rows[y][x]`.
fn modules(text: &str) -> Vec<Vec<bool>> {
    let svg = qr(text).unwrap().into_string();
    let view = svg.split("viewBox=\"0 0 ").nth(1).unwrap();
    let side: usize = view.split(' ').next().unwrap().parse().unwrap();
    let mut rows = vec![vec![false; side]; side];
    let d = svg.split(" d=\"").nth(1).unwrap();
    let d = d.split('"').next().unwrap();
    for piece in d.split('M').skip(1) {
        let (place, rest) = piece.split_once('h').unwrap();
        let (x, y) = place.split_once(' ').unwrap();
        let (x, y): (usize, usize) = (x.parse().unwrap(), y.parse().unwrap());
        let (long, rest) = rest.split_once('v').unwrap();
        assert_eq!(rest, format!("1h-{long}z"));
        for module in &mut rows[y][x..x + long.parse::<usize>().unwrap()] {
            assert!(!*module, "drawn twice");
            *module = true;
        }
    }
    rows
}

/// 7 by 7 dark, in it 5 by 5 light, in it 3 by 3 dark; outside, one light module where the code goes on.
fn finder(rows: &[Vec<bool>], left: usize, top: usize) {
    for y in 0..7 {
        for x in 0..7 {
            let from_middle = usize::abs_diff(x, 3).max(usize::abs_diff(y, 3));
            assert_eq!(
                rows[top + y][left + x],
                from_middle != 2,
                "{x} {y} of the pattern at {left} {top}"
            );
        }
    }
    for along in 0..9 {
        let (x, y) = (left - 1 + along, top - 1 + along);
        let around = [(x, top - 1), (x, top + 7), (left - 1, y), (left + 7, y)];
        assert!(around.iter().all(|(x, y)| !rows[*y][*x]));
    }
}

#[test]
fn published_the_symbol_of_annex_i() {
    // ISO/IEC 18004, annex I: the digits 01234567 in version 1 with level M.
    let expected = "\
#######..#.##.#######
#.....#..####.#.....#
#.###.#.#.....#.###.#
#.###.#.##....#.###.#
#.###.#.#.###.#.###.#
#.....#.#...#.#.....#
#######.#.#.#.#######
........#..##........
#.#####..#..#.#####..
...#.#.##.#.#..#.##..
..#...##.#.#.#..#####
....#....#.....####..
...######..#.#..#....
........#.#####..##..
#######..##.#.##.....
#.....#.#.#####...#.#
#.###.#.#...#..#.##..
#.###.#.##..#..#.....
#.###.#.#.##.#..#.#..
#.....#........##.##.
#######.####.#..#.#..";
    let rows = modules("01234567");
    let inside = &rows[FREE..rows.len() - FREE];
    let line = |row: &Vec<bool>| -> String {
        let inside = &row[FREE..row.len() - FREE];
        inside
            .iter()
            .map(|dark| if *dark { '#' } else { '.' })
            .collect()
    };
    let drawn: Vec<String> = inside.iter().map(line).collect();
    assert_eq!(drawn.join("\n"), expected);
}

#[test]
fn published_finder_patterns_timing_and_quiet_zone() {
    for length in [1, 40, 200, 900, 2331] {
        let rows = modules(&"a".repeat(length));
        let side = rows.len() - 2 * FREE;
        // Versions 1 to 40 are 21 to 177 modules, four apart.
        assert!((21..=177).contains(&side) && side % 4 == 1, "{side}");
        let far = FREE + side - 7;
        finder(&rows, FREE, FREE);
        finder(&rows, far, FREE);
        finder(&rows, FREE, far);
        let timing = rows[FREE + 6]
            .iter()
            .zip(rows.iter().map(|row| row[FREE + 6]));
        let between = timing.enumerate().take(far - 1).skip(FREE + 8);
        for (along, (across, down)) in between {
            let dark = along.is_multiple_of(2);
            assert_eq!((*across, down), (dark, dark));
        }
        for (y, row) in rows.iter().enumerate() {
            for (x, dark) in row.iter().enumerate() {
                let free = [x, y]
                    .iter()
                    .any(|at| *at < FREE || *at >= rows.len() - FREE);
                assert!(!(free && *dark), "{x} {y} is in the quiet zone");
            }
        }
    }
}

#[test]
fn published_the_longest_text_and_one_longer() {
    // The capacity of version 40 with level M in bytes: 2331 (ISO/IEC 18004, table 7).
    assert_eq!(modules(&"ä".repeat(1165)).len(), 177 + 2 * FREE);
    let refused = qr(&"a".repeat(2332)).map(maud::Markup::into_string);
    let expected = QrTooLong {
        length: 2332,
        most: 2331,
    };
    assert_eq!(refused.as_ref().unwrap_err(), &expected);
    let words = expected.to_string();
    assert!(words.contains("2332") && words.contains("2331"), "{words}");
}

#[test]
fn law_a_code_says_what_it_opens_and_is_drawn_without_seams() {
    let svg = qr("http://bench/?a=1&b=<2>").unwrap().into_string();
    assert!(
        svg.contains("role=\"img\" aria-label=\"QR code of http://bench/?a=1&amp;b=&lt;2&gt;\"")
    );
    assert!(svg.contains("shape-rendering=\"crispEdges\""));
    assert_eq!(svg.matches("<path ").count(), 1);
}

#[test]
fn law_page_and_terminal_show_the_same_modules() {
    for text in ["1", "http://192.168.1.20:8157/pair?number=481923"] {
        let mut rows = Vec::new();
        for line in qr_lines(text).unwrap() {
            rows.push(line.chars().map(|c| c == '█' || c == '▀').collect());
            rows.push(
                line.chars()
                    .map(|c| c == '█' || c == '▄')
                    .collect::<Vec<bool>>(),
            );
        }
        // A code has an odd number of rows.
        rows.pop();
        assert_eq!(rows, modules(text));
    }
}
