use joint::pattern::{GASKET, METAL_FACES, NEIGHBOUR_LOSS, remaining, star};

use crate::assert_near;

#[test]
fn published_pcc_1_cross_patterns() {
    // The legacy cross pattern of ASME PCC-1 for 4, 8 and 12, from memory. Exact.
    for (count, order) in [
        (4, "1 3 2 4"),
        (8, "1 5 3 7 2 6 4 8"),
        (12, "1 7 4 10 2 8 5 11 3 9 6 12"),
    ] {
        assert_eq!(spelled(count), order);
    }
}

#[test]
fn computed_python_stars() {
    // Python 3.11.7. Exact.
    for (count, order) in [
        (1, "1"),
        (2, "1 2"),
        (3, "1 2 3"),
        (5, "1 3 5 2 4"),
        (6, "1 4 2 5 3 6"),
        (7, "1 4 7 3 6 2 5"),
        (10, "1 6 3 8 5 10 2 7 4 9"),
        (16, "1 9 5 13 3 11 7 15 2 10 6 14 4 12 8 16"),
    ] {
        assert_eq!(spelled(count), order);
    }
}

fn spelled(count: usize) -> String {
    let numbers: Vec<String> = star(count).unwrap().iter().map(usize::to_string).collect();
    numbers.join(" ")
}

#[track_caller]
fn assert_loads(order: &[usize], passes: &[f64], expected: &[&[f64]]) {
    let loads = remaining(order, passes, NEIGHBOUR_LOSS).unwrap();
    assert_eq!(loads.len(), expected.len());
    for (loads, expected) in loads.iter().zip(expected) {
        for (screw, load) in loads.iter().enumerate() {
            // Printed to 1e-4; the row repeats round the circle.
            assert_near(*load, expected[screw % expected.len()], 5.1e-5);
        }
    }
}

#[test]
fn computed_python_one_pass() {
    // Python 3.11.7, loss of 0.15; preload over target by screw number, to 1e-4.
    assert_loads(&star(4).unwrap(), &[1.0], &[&[0.7, 1.0]]);
    assert_loads(&[1, 2, 3, 4], &[1.0], &[&[0.7, 0.85, 0.85, 1.0]]);
    assert_loads(&star(5).unwrap(), &[1.0], &[&[0.7, 1.0, 0.7, 1.0, 0.85]]);
    assert_loads(&star(6).unwrap(), &[1.0], &[&[0.7, 0.85, 1.0]]);
    assert_loads(&star(8).unwrap(), &[1.0], &[&[0.7, 1.0]]);
}

#[test]
fn computed_python_four_passes() {
    // Python 3.11.7, loss of 0.15, 30 %, 70 %, 100 %, 100 % again, in star order; to 1e-4.
    let of_four: &[&[f64]] = &[&[0.21, 0.3], &[0.5359, 0.7], &[0.8682, 1.0], &[0.9881, 1.0]];
    assert_loads(&star(4).unwrap(), &GASKET, of_four);
    assert_loads(&star(8).unwrap(), &GASKET, of_four);
    assert_loads(
        &star(5).unwrap(),
        &GASKET,
        &[
            &[0.21, 0.3, 0.21, 0.3, 0.255],
            &[0.5402, 0.7, 0.5353, 0.7, 0.6173],
            &[0.8664, 1.0, 0.8686, 1.0, 0.9344],
            &[0.9812, 1.0, 0.9892, 1.0, 0.9951],
        ],
    );
    assert_loads(
        &star(6).unwrap(),
        &GASKET,
        &[
            &[0.21, 0.255, 0.3],
            &[0.5395, 0.6173, 0.7],
            &[0.8667, 0.9345, 1.0],
            &[0.9822, 0.9951, 1.0],
        ],
    );
}

#[test]
fn computed_python_whole_torque_three_times() {
    // Python 3.11.7: the least is 0.7, then 0.973, then 0.9976.
    let loads = remaining(&star(4).unwrap(), &[1.0; 3], NEIGHBOUR_LOSS).unwrap();
    for (loads, least) in loads.iter().zip([0.7, 0.973, 0.9976]) {
        assert_near(
            loads.iter().copied().fold(f64::INFINITY, f64::min),
            least,
            5.1e-5,
        );
    }
}

#[test]
fn published_losses_of_up_to_35_percent() {
    // Bolt Science, tightening sequence: losses of up to 35 %, which a loss of 0.175 to each of two
    // neighbours makes. Exact.
    let loads = remaining(&star(4).unwrap(), &[1.0], 0.175).unwrap();
    assert_near(loads[0][0], 0.65, 1e-12);
}

#[test]
fn practice_passes_end_with_the_whole_torque_twice() {
    for passes in [&METAL_FACES[..], &GASKET] {
        assert!(passes.is_sorted());
        assert!(passes.ends_with(&[1.0, 1.0]));
    }
}

#[test]
fn law_few_screws() {
    // One has no neighbour, two have one another.
    assert_eq!(remaining(&[1], &[1.0], 0.15), Ok(vec![vec![1.0]]));
    assert_eq!(remaining(&[2, 1], &[1.0], 0.25), Ok(vec![vec![1.0, 0.75]]));
}

#[test]
fn law_a_wrench_never_takes_away() {
    let loads = remaining(&star(4).unwrap(), &[1.0, 0.5], NEIGHBOUR_LOSS).unwrap();
    assert_eq!(loads[0], loads[1]);
}
