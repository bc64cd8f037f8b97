//! Every page on paper, A4 and Letter, read back by `pdftotext`.

use thirtyfour::prelude::*;

use super::desk::{Desk, read_back};
use super::{Walked, walk};

/// Points in an inch.
const POINTS: f64 = 72.0;
/// The foot of a sheet, where page and number stand, in points.
const FOOT: f64 = 48.0;

/// Addresses under the job, and the most sheets each may take.
const PAGES: [(&str, usize); 16] = [
    ("teardown", 6),
    ("measure", 4),
    ("choose", 6),
    ("torque", 11),
    ("assemble", 5),
    ("plan", 3),
    ("audit", 4),
    ("water", 2),
    ("wrong", 3),
    ("service", 6),
    ("sheet", 9),
    ("record", 10),
    ("blank", 1),
    ("test-card", 2),
    ("history", 2),
    (
        "photo/ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
        1,
    ),
];

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_every_page_on_a4() {
    walk(1280, 900, async |desk: &Desk| {
        everything(desk, (8.27, 11.69)).await
    })
    .await;
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_every_page_on_letter() {
    walk(390, 844, async |desk: &Desk| {
        everything(desk, (8.5, 11.0)).await
    })
    .await;
}

async fn everything(desk: &Desk, paper: (f64, f64)) -> Walked {
    // A dark theme is no reason to print black.
    let shop = By::Css("button[value=shop]");
    desk.browser.find(shop).await?.click().await?;
    for (page, most) in PAGES {
        let address = format!("{}/job/patrol-craft/{page}", desk.base);
        desk.browser.goto(&address).await?;
        sheets(desk, (page, most), paper).await?;
    }
    desk.browser.goto(&desk.base).await?;
    sheets(desk, ("jobs", 1), paper).await
}

/// The size of every sheet, what stands on it, and that it stands inside.
async fn sheets(desk: &Desk, (page, most): (&str, usize), paper: (f64, f64)) -> Walked {
    let file = desk.printed(paper).await?;
    let boxes = read_back(&file, &["-bbox"]);
    let sheets: Vec<&str> = boxes.split("<page ").skip(1).collect();
    assert!(
        (1..=most).contains(&sheets.len()),
        "{page}: {} sheets",
        sheets.len()
    );
    for (at, sheet) in sheets.iter().enumerate() {
        let (width, height) = (number(sheet, "width"), number(sheet, "height"));
        assert!(
            (width - paper.0 * POINTS).abs() < 2.0,
            "{page}: {width} wide"
        );
        assert!(
            (height - paper.1 * POINTS).abs() < 2.0,
            "{page}: {height} high"
        );
        let words: Vec<&str> = sheet.split("<word ").skip(1).collect();
        for word in &words {
            let (left, right) = (number(word, "xMin"), number(word, "xMax"));
            let (top, bottom) = (number(word, "yMin"), number(word, "yMax"));
            let inside = left >= 0.0 && right <= width && top >= 0.0 && bottom <= height;
            assert!(inside, "{page}, sheet {}: {word}", at + 1);
        }
        let told = words
            .iter()
            .any(|word| number(word, "yMax") < height - FOOT);
        assert!(
            told,
            "{page}: sheet {} of {} is empty",
            at + 1,
            sheets.len()
        );
        assert!(sheet.contains(">Printed<"), "{page}: no day at the foot");
    }
    let read = bare(&read_back(&file, &["-raw"]));
    for css in ["#answer h2", ".caution span"] {
        for element in desk.browser.find_all(By::Css(css)).await? {
            let said = element.text().await?;
            assert!(read.contains(&bare(&said)), "{page} never prints “{said}”");
        }
    }
    // What only leads elsewhere leads nowhere on paper.
    for element in desk.browser.find_all(By::Css(".ways .state")).await? {
        let said = element.text().await?;
        let printed = !said.is_empty() && read.contains(&bare(&said));
        assert!(!printed, "{page} prints “{said}”");
    }
    for gone in ["Undo", "Who is working?", "All jobs"] {
        assert!(!read.contains(&bare(gone)), "{page} prints “{gone}”");
    }
    Ok(())
}

/// Without white space, and letters that a font joins told apart: a line breaks where the paper is narrow.
fn bare(text: &str) -> String {
    let text = text.replace('ﬁ', "fi").replace('ﬂ', "fl");
    text.chars().filter(|c| !c.is_whitespace()).collect()
}

fn number(tag: &str, name: &str) -> f64 {
    let value = tag.split(&format!("{name}=\"")).nth(1).unwrap();
    value.split('"').next().unwrap().parse().unwrap()
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_a_label_has_its_own_size_and_prints_alone() {
    walk(1280, 900, labels).await;
}

async fn labels(desk: &Desk) -> Walked {
    let millimetres = |mm: f64| mm / 25.4 * POINTS; // not a conversion: paper is measured in points
    for (size, (width, height), copies) in [
        ("62", (62.0, 100.0), 1),
        ("a6", (105.0, 148.0), 1),
        ("sheet", (210.0, 297.0), 6),
    ] {
        let address = format!(
            "{}/job/patrol-craft/label?size={size}&address=http://192.168.1.20:8080",
            desk.base
        );
        desk.browser.goto(&address).await?;
        let button = desk.browser.find(By::Css("[data-print]")).await?;
        assert!(button.is_displayed().await?, "no way to print");
        // The code without its quiet zone is 20 mm wide or more, and its modules are squares.
        let code = desk.browser.find(By::Css("svg.qr")).await?;
        let view = code.attr("viewBox").await?.unwrap();
        let side: f64 = view.rsplit(' ').next().unwrap().parse().unwrap();
        let drawn = code.rect().await?;
        let symbol = drawn.width * (side - 8.0) / side * 25.4 / 96.0; // not a conversion: pixels of a page
        assert!(
            symbol >= 20.0 && (drawn.width - drawn.height).abs() < 0.5,
            "{symbol} mm, {drawn:?}"
        );
        let file = desk.printed((8.27, 11.69)).await?;
        let boxes = read_back(&file, &["-bbox"]);
        let sheets: Vec<&str> = boxes.split("<page ").skip(1).collect();
        assert_eq!(sheets.len(), 1, "{size}");
        assert!(
            (number(sheets[0], "width") - millimetres(width)).abs() < 2.0,
            "{size}"
        );
        assert!(
            (number(sheets[0], "height") - millimetres(height)).abs() < 2.0,
            "{size}"
        );
        let read = bare(&read_back(&file, &["-raw"]));
        let address = "192.168.1.20:8080/job/patrol-craft/history";
        assert_eq!(read.matches(address).count(), copies, "{size}: {read}");
        assert!(
            read.contains("Invented:") && !read.contains("Size"),
            "{read}"
        );
    }
    Ok(())
}
