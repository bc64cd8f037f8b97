//! What the devices page says, to whom, and how a device is let in.

use report::page::devices::{
    Denied, Lan, Line, Number, PairView, Reader, View, digits, name, on_jobs, page, pair,
};
use report::page::{FormName, Next, Page, Section, flat, jobs, trust};

fn lan(number: Number) -> Lan {
    Lan {
        addresses: vec![
            "http://192.168.1.20:8157/".to_owned(),
            "http://10.0.0.7:8157/".to_owned(),
        ],
        plain: vec!["http://192.168.1.20:8157/".to_owned()],
        secure: false,
        number,
    }
}

fn open() -> Number {
    let link = |host: &str| format!("http://{host}:8157/pair?number=042007");
    Number::Open {
        digits: "042007".to_owned(),
        minutes: 1,
        links: vec![link("192.168.1.20"), link("10.0.0.7")],
    }
}

fn lines() -> Vec<Line> {
    ["tablet", "phone"]
        .map(|name| Line {
            id: format!("id-{name}"),
            name: name.to_owned(),
            paired: "2026-05-09 14:02".to_owned(),
            seen: "2026-05-10 08:00".to_owned(),
        })
        .to_vec()
}

fn shown(reader: Reader<'_>, lan: Option<&Lan>) -> Page {
    page(&View {
        reader,
        lan,
        devices: &lines(),
        refused: None,
    })
}

fn said(page: &Page) -> String {
    format!("{} {}", page.answer.headline, flat(&page.answer.detail))
}

fn codes(page: &Page) -> usize {
    let pictures = page.evidence.iter();
    pictures
        .filter(|section| matches!(section, Section::Picture { .. }))
        .count()
}

#[test]
fn law_the_number_is_at_the_bench_alone() {
    let lan = lan(open());
    let bench = shown(Reader::Bench, Some(&lan));
    assert_eq!(bench.answer.headline, "Pairing number 042\u{a0}007");
    assert!(said(&bench).contains("good for 1 more minute."));
    assert_eq!(codes(&bench), 2, "a code an address");
    let device = shown(Reader::Device("id-phone"), Some(&lan));
    let whole = format!("{device:?}");
    assert!(!whole.contains("042"), "{whole}");
    assert_eq!(codes(&device), 0);
    assert!(matches!(device.next, Next::Go { .. }));
}

#[test]
fn law_each_standing_of_the_number_has_its_own_answer() {
    let answers = [
        Number::None,
        open(),
        Number::Used,
        Number::Expired,
        Number::Void,
    ];
    let answers = answers.map(|number| said(&shown(Reader::Bench, Some(&lan(number)))));
    for (at, one) in answers.iter().enumerate() {
        assert!(!answers[..at].contains(one), "{one}");
    }
    assert!(
        answers[4].contains("5 wrong numbers came."),
        "{}",
        answers[4]
    );
    let closed = said(&shown(Reader::Bench, None));
    assert!(closed.contains("pumpwright serve --lan"), "{closed}");
}

#[test]
fn law_a_device_has_forms_for_itself_and_the_bench_for_all() {
    let forms = |reader| {
        let page = shown(reader, None);
        let cards = page
            .evidence
            .into_iter()
            .filter_map(|section| match section {
                Section::Card(card) => Some(card.forms.len()),
                _ => None,
            });
        cards.collect::<Vec<usize>>()
    };
    assert_eq!(forms(Reader::Bench), [2, 2]);
    assert_eq!(forms(Reader::Device("id-phone")), [0, 2]);
    assert_eq!(forms(Reader::Device("gone")), [0, 0]);
}

#[test]
fn law_a_code_of_https_leads_to_https_and_the_first_time_is_told() {
    let lan = Lan {
        secure: true,
        ..lan(Number::None)
    };
    let whole = format!("{:?}", shown(Reader::Bench, Some(&lan)).evidence);
    assert!(whole.contains("The first time") && whole.contains("Who can read along"));
    let plain = Lan {
        secure: false,
        ..lan
    };
    let whole = format!("{:?}", shown(Reader::Bench, Some(&plain)).evidence);
    assert!(!whole.contains("The first time") && whole.contains("What plain HTTP takes away"));
}

#[test]
fn law_the_jobs_page_leads_to_the_devices() {
    for (lan, words) in [(true, "who may come in"), (false, "serve --lan")] {
        let page = on_jobs(jobs::page(&[], None), lan);
        assert!(format!("{:?}", page.evidence).contains(words));
    }
}

#[test]
fn law_numbers_and_names_are_read_or_refused() {
    assert_eq!(digits(" 042 007 "), Ok("042007".to_owned()));
    assert_eq!(digits("042\u{a0}007"), Ok("042007".to_owned()));
    for bad in ["", "42007", "0420071", "04200x", "٠٤٢٠٠٧", "+42007"] {
        assert!(matches!(digits(bad), Err(Denied::NoNumber { .. })), "{bad}");
    }
    let long = "1".repeat(5000);
    assert!(digits(&long).unwrap_err().to_string().len() < 200);
    assert_eq!(name("  phone  "), Ok("phone".to_owned()));
    assert_eq!(
        name("é".repeat(40).as_str()).map(|name| name.chars().count()),
        Ok(40)
    );
    assert_eq!(
        name(&"é".repeat(41)),
        Err(Denied::LongName { characters: 41 })
    );
    assert_eq!(name(" \t"), Err(Denied::NoName));
    assert_eq!(name("a\u{1b}[31m"), Err(Denied::BadName));
}

#[test]
fn law_the_pairing_page_asks_for_a_number_and_a_name() {
    let page = pair(&PairView {
        number: "042007".to_owned(),
        removed: Some("2026-05-09 14:02".to_owned()),
        ..PairView::default()
    });
    assert!(said(&page).contains("It was removed 2026-05-09 14:02"));
    let Next::Fill(form) = page.next else {
        panic!("a form");
    };
    assert_eq!(form.name, FormName::Pair);
    let keys: Vec<_> = form.fields.iter().map(|field| field.key).collect();
    assert_eq!(keys, ["number", "name"]);
    assert_eq!(form.fields[0].value, "042007");
}

#[test]
fn law_the_second_switch_is_told() {
    let page = trust::page(&trust::View {
        fingerprint: "AA:BB",
        secure: "https://192.168.1.20:8158/",
    });
    let whole = format!("{:?}", page.evidence);
    assert!(whole.contains("Certificate Trust Settings: switch on full trust"));
    assert_eq!(whole.matches("Written from memory").count(), 6);
}
