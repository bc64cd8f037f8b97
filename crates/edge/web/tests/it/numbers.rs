//! The pairing number: for one device, for a few tries, only while somebody asked for it.

use crate::strangers::{here, number, open, pairs};

/// Digits that are not these.
fn other(digits: &str, by: u32) -> String {
    format!("{:06}", (digits.parse::<u32>().unwrap() + by) % 1_000_000)
}

#[test]
fn law_five_wrong_tries_void_the_number_for_the_right_one_too() {
    let (bench, lan) = open();
    let right = number(&lan);
    for (by, told) in [
        "4 tries are left",
        "3 tries are left",
        "2 tries are left",
        "One more try, and it is void",
        "The number is void after 5 wrong tries.",
    ]
    .iter()
    .enumerate()
    {
        let wrong = other(&right, u32::try_from(by).unwrap() + 1);
        let reply = pairs(&bench, &wrong, "phone");
        assert_eq!(reply.status, 422);
        assert!(reply.body.contains(told), "{told}: {}", reply.body);
        // What was typed stands there again.
        assert!(reply.body.contains(&format!("value=\"{wrong}\"")));
        assert!(reply.body.contains("value=\"phone\""));
    }
    for digits in [right.as_str(), "000000", &other(&right, 9)] {
        let reply = pairs(&bench, digits, "phone");
        assert_eq!(reply.status, 422);
        assert!(
            reply
                .body
                .contains("The number is void after 5 wrong tries.")
        );
        assert!(!reply.headers.contains_key("set-cookie"));
    }
    let told = here(&bench, "GET", "/devices", "").body;
    assert!(told.contains("The pairing number was guessed at and is void."));
    // Somebody at the bench asks for another.
    assert_eq!(here(&bench, "POST", "/act/pairing-number", "").status, 303);
    let page = here(&bench, "GET", "/devices", "").body;
    let (_, digits) = page.split_once("Pairing number ").unwrap();
    let digits: String = digits
        .chars()
        .filter(char::is_ascii_digit)
        .take(6)
        .collect();
    assert_eq!(pairs(&bench, &digits, "phone").status, 303);
}

#[test]
fn law_a_mistyped_number_is_no_try_and_a_spaced_one_is_read() {
    let (bench, lan) = open();
    let right = number(&lan);
    for typed in ["", "12345", "1234567", "12345a", "١٢٣٤٥٦", "-12345", "1e5"] {
        for _ in 0..3 {
            let reply = pairs(&bench, typed, "phone");
            assert_eq!(reply.status, 422, "{typed}");
            assert!(
                reply.body.contains("It was not counted as a try."),
                "{typed}"
            );
        }
    }
    let (first, rest) = right.split_at(3);
    assert_eq!(
        pairs(&bench, &format!("+{first}+{rest}"), "phone").status,
        303
    );
}

#[test]
fn law_a_number_lets_in_one_device() {
    let (bench, lan) = open();
    let digits = number(&lan);
    assert_eq!(pairs(&bench, &digits, "phone").status, 303);
    let again = pairs(&bench, &digits, "another phone");
    assert_eq!(again.status, 422);
    assert!(again.body.contains("No pairing number is open now"));
    // A later number ends the one before.
    let (first, second) = (number(&lan), number(&lan));
    if first != second {
        assert!(
            pairs(&bench, &first, "tablet")
                .body
                .contains("4 tries are left")
        );
    }
    // A name that is taken, missing or too long neither spends the number nor counts as a try.
    for (name, why) in [
        ("phone", "Another device here is named “phone”."),
        ("", "Give this device a name"),
        (
            &"x".repeat(41)[..],
            "This name has 41 characters and may have 40.",
        ),
        ("a%0ab", "a character that cannot be shown"),
    ] {
        let reply = pairs(&bench, &second, name);
        assert!(
            reply.status == 422 && reply.body.contains(why),
            "{why}: {}",
            reply.body
        );
    }
    assert_eq!(pairs(&bench, &second, "tablet").status, 303);
}

#[test]
fn law_no_number_is_open_until_somebody_asks() {
    let (bench, _lan) = open();
    for digits in ["000000", "123456", "999999"] {
        let reply = pairs(&bench, digits, "phone");
        assert!(reply.body.contains("No pairing number is open now"));
    }
}

/// Sent by eight at the same moment, a number still lets in one.
#[test]
fn law_a_number_sent_at_once_lets_in_one_device() {
    let (bench, lan) = open();
    let digits = number(&lan);
    let start = std::sync::Barrier::new(8);
    let statuses: Vec<u16> = std::thread::scope(|scope| {
        let tries: Vec<_> = (0..8)
            .map(|n| {
                let (bench, digits, start) = (&bench, &digits, &start);
                scope.spawn(move || {
                    start.wait();
                    pairs(bench, digits, &format!("phone {n}")).status
                })
            })
            .collect();
        tries.into_iter().map(|one| one.join().unwrap()).collect()
    });
    let let_in = statuses.iter().filter(|status| **status == 303).count();
    assert_eq!(let_in, 1, "{statuses:?}");
    assert!(
        here(&bench, "GET", "/devices", "")
            .body
            .contains("1 device is paired.")
    );
}
