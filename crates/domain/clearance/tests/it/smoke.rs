use clearance::*;
const THOU: f64 = 25.4e-6;
#[test]
fn smoke() {
    let tries = [
        Try {
            thickness: 13.0 * THOU,
            answer: Answer::Goes,
        },
        Try {
            thickness: 15.0 * THOU,
            answer: Answer::WontGo,
        },
    ];
    let c = cell(&tries, &Feel::default()).unwrap();
    for n in [1, 2, 8, 32] {
        let cells: Vec<Cell> = (0..n).map(|_| c).collect();
        let t = std::time::Instant::now();
        let p = posterior(&cells, &Model::default(), 1).unwrap();
        println!("{n} {:?}", t.elapsed());
        println!(
            "spot {:?}\nleast {:?}\nmean {:?}\ngreatest {:?} {:?}",
            p.spot(0),
            p.least(),
            p.mean(),
            p.greatest(),
            p.least_at()
        );
        println!(
            "{:?}",
            conformity(
                &p,
                &Limits::Radial {
                    least: Some(13.0 * THOU),
                    greatest: None
                }
            )
        );
        println!(
            "{:?}",
            conformity(
                &p,
                &Limits::Radial {
                    least: None,
                    greatest: Some(13.0 * THOU)
                }
            )
        );
        println!("{:?}", t.elapsed());
    }
    for n in [8, 32] {
        let cells: Vec<Cell> = (0..n)
            .map(|i| Cell {
                low: c.low + f64::from(i) * 1e-6,
                high: c.high + f64::from(i * i) * 1e-7,
            })
            .collect();
        let t = std::time::Instant::now();
        let p = posterior(&cells, &Model::default(), 1).unwrap();
        println!("distinct {n} {:?} {:?}", t.elapsed(), p.least());
    }
    for h in [0.02e-3, 0.05e-3, 0.1e-3] {
        let cells = vec![Cell { low: 0.0, high: h }; 32];
        let t = std::time::Instant::now();
        let p = posterior(&cells, &Model::default(), 1);
        println!("rub {h} {:?} {:?}", t.elapsed(), p.map(|p| p.least()));
    }
    let iv = [
        (12, 13),
        (13, 14),
        (13, 15),
        (14, 15),
        (15, 16),
        (13, 14),
        (12, 13),
        (14, 16),
        (15, 16),
        (13, 15),
        (14, 15),
        (16, 17),
    ];
    let mut cells: Vec<Cell> = iv
        .iter()
        .map(|&(l, h)| Cell {
            low: f64::from(l),
            high: f64::from(h),
        })
        .collect();
    let f = population::fit(&cells, population::Spread::Free).unwrap();
    println!("{f:?} {:?}", f.mean_interval(&cells, 1.92073));
    cells.push(Cell {
        low: f64::NEG_INFINITY,
        high: 12.0,
    });
    cells.push(Cell {
        low: 17.0,
        high: f64::INFINITY,
    });
    println!("{:?}", population::fit(&cells, population::Spread::Free));
}
