//! Benchmarks of project scheduling with least and most lags, of the sets UBO and SM that ProGen/max
//! made, as written out by hand from `kobe-scheduling`; what is known of them is by OR-tools 9.15 CP-SAT.

use assembly::{
    Ask, Demand, Network, NoSchedule, Plan, Resource, Resources, Rule, Situation, Step,
};

use crate::schedule::assert_obeys;

/// UBO10 psp2: 45 by CP-SAT and by `HiGHS`, 32 by time alone.
const UBO10_PSP2: &str = "\
10 5 0 0
0 1 4 4 3 1 2 [0] [0] [0] [0]
1 1 1 5 [9]
2 1 2 5 6 [-3] [8]
3 1 1 7 [24]
4 1 1 9 [22]
5 1 1 8 [4]
6 1 1 10 [3]
7 1 3 10 11 3 [-2] [8] [-26]
8 1 1 11 [10]
9 1 2 11 4 [9] [-25]
10 1 1 11 [5]
11 1 0
0 1 0 0 0 0 0 0
1 1 4 4 3 7 7 2
2 1 4 1 9 6 4 1
3 1 10 2 0 0 4 2
4 1 10 0 7 4 7 10
5 1 3 6 6 3 6 6
6 1 1 10 1 4 7 10
7 1 8 9 0 10 4 6
8 1 10 4 0 0 0 0
9 1 9 0 8 0 0 0
10 1 5 4 1 6 9 6
11 1 0 0 0 0 0 0
10 10 10 10 10";

/// UBO10 psp1: feasible in time, not with its resources, by CP-SAT and by `HiGHS`.
const UBO10_PSP1: &str = "\
10 5 0 0
0 1 4 3 2 1 8 [0] [0] [0] [0]
1 1 1 10 [2]
2 1 3 4 11 7 [5] [9] [0]
3 1 1 9 [3]
4 1 2 11 5 [6] [4]
5 1 2 11 6 [9] [-5]
6 1 3 5 7 11 [-4] [-4] [10]
7 1 2 8 11 [-4] [5]
8 1 2 11 7 [7] [-2]
9 1 1 11 [7]
10 1 2 11 1 [5] [-3]
11 1 0
0 1 0 0 0 0 0 0
1 1 2 5 7 8 4 6
2 1 9 10 8 0 8 10
3 1 6 9 9 0 4 5
4 1 6 0 8 0 5 5
5 1 9 0 8 6 3 4
6 1 10 8 9 4 9 9
7 1 5 6 3 0 6 9
8 1 7 6 8 2 0 10
9 1 7 0 8 10 3 0
10 1 5 0 8 0 10 0
11 1 0 0 0 0 0 0
10 10 10 10 10";

/// `sm_j10` PSP1: 26 by CP-SAT and by `HiGHS`, which is the bound of time alone.
const SM_J10_PSP1: &str = "\
10 5 0 0
0 1 4 4 2 1 3 [0] [0] [0] [0]
1 1 4 9 7 8 10 [9] [1] [8] [2]
2 1 1 8 [24]
3 1 2 10 7 [4] [8]
4 1 3 10 9 5 [0] [0] [7]
5 1 1 6 [0]
6 1 1 11 [5]
7 1 1 11 [10]
8 1 3 1 2 11 [-22] [-34] [2]
9 1 1 11 [6]
10 1 1 11 [1]
11 1 0
0 1 0 0 0 0 0 0
1 1 3 4 1 0 0 0
2 1 10 1 0 3 0 0
3 1 3 4 0 2 2 3
4 1 3 0 0 0 3 0
5 1 3 0 1 2 4 0
6 1 5 2 3 4 0 0
7 1 10 0 4 4 0 4
8 1 2 2 0 0 4 4
9 1 6 5 0 0 1 1
10 1 1 0 1 0 0 0
11 1 0 0 0 0 0 0
5 5 5 5 5";

/// Reads what the benchmarks are written in: counts; steps with their ties from start to start;
/// durations and demands; capacities. Dummies at both ends take no time.
///
/// A tie that lets a step overlap one before it has no rule of its own here: it runs from a step
/// without duration that starts together with that one.
pub(crate) fn read(text: &str) -> (Plan, Resources) {
    let mut lines = text.lines().map(|line| {
        let words = line.split(|c: char| c.is_whitespace() || c == '[' || c == ']');
        let numbers = words.filter(|word| !word.is_empty());
        numbers
            .map(|word| word.parse::<i64>().unwrap())
            .collect::<Vec<i64>>()
    });
    let place = |number: i64| usize::try_from(number).unwrap();
    let count = place(lines.next().unwrap()[0]) + 2;
    let ties: Vec<(usize, usize, i64)> = lines
        .by_ref()
        .take(count)
        .flat_map(|line| {
            let (from, many) = (place(line[0]), place(line[2]));
            let tie = move |k: usize| (from, place(line[3 + k]), line[3 + many + k]);
            (0..many).map(tie).collect::<Vec<_>>()
        })
        .collect();
    let rows: Vec<Vec<i64>> = lines.by_ref().take(count).collect();
    let mut steps: Vec<Step> = rows.iter().map(|row| Step::lasting(row[2])).collect();
    let mut rules = Vec::new();
    let mut begins = vec![None; count];
    for (from, to, least) in ties {
        let lasts = steps[from].likely;
        let ask = if least >= lasts {
            Ask::After {
                first: from,
                then: to,
                lag: least - lasts,
            }
        } else if least <= 0 {
            Ask::StartWithinStart {
                first: to,
                then: from,
                most: -least,
            }
        } else {
            let first = *begins[from].get_or_insert_with(|| {
                steps.push(Step::lasting(0));
                let begins = steps.len() - 1;
                rules.push(Rule::negotiable(Ask::Together {
                    first: from,
                    then: begins,
                }));
                begins
            });
            Ask::After {
                first,
                then: to,
                lag: least,
            }
        };
        rules.push(Rule::negotiable(ask));
    }
    let plan = Plan::new(steps, rules).unwrap();
    let resources = resources(&plan, &rows, &lines.next().unwrap());
    (plan, resources)
}

/// Capacities, and the demands at the end of each row of durations.
fn resources(plan: &Plan, rows: &[Vec<i64>], capacities: &[i64]) -> Resources {
    let units = |number: i64| u32::try_from(number).unwrap();
    let demands: Vec<Demand> = rows
        .iter()
        .enumerate()
        .flat_map(|(step, row)| {
            let used = row[3..].iter().enumerate();
            used.map(move |(resource, &number)| Demand {
                step,
                resource,
                units: units(number),
            })
        })
        .collect();
    let list = capacities.iter().map(|&number| Resource::of(units(number)));
    Resources::new(plan, list.collect(), &demands).unwrap()
}

fn proved(text: &str) -> Result<i64, NoSchedule> {
    let (plan, resources) = read(text);
    let situation = Situation::fresh(&plan);
    let network = Network::new(&plan, &situation).unwrap();
    let schedule = network.prove(&resources, None, |_| true)?;
    assert_obeys(&plan, &resources, &schedule);
    assert_eq!(schedule.gap(), 0);
    Ok(schedule.finish)
}

#[test]
fn computed_ubo10_psp2_is_45() {
    assert_eq!(proved(UBO10_PSP2), Ok(45));
}

#[test]
fn computed_ubo10_psp1_has_no_schedule() {
    assert_eq!(proved(UBO10_PSP1), Err(NoSchedule::Impossible));
}

#[test]
fn computed_sm_j10_psp1_is_26() {
    assert_eq!(proved(SM_J10_PSP1), Ok(26));
}
