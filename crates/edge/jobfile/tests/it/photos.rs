//! Photos in a job file: what is said of them travels, the pictures do not.

use jobfile::{By, JobFile, parse, write};
use workshop::draft::{JobDraft, PhotoDraft};
use workshop::entry::JobId;
use workshop::fold::fold;

/// A photo of the whole job, one of a step and one of a thing that no table tells of.
pub(crate) fn photos() -> Vec<PhotoDraft> {
    let photo = |digit: &str, subject: &str, words: &str| PhotoDraft {
        photo: digit.repeat(64),
        width: "2560".to_owned(),
        height: "1".to_owned(),
        subject: subject.to_owned(),
        words: words.to_owned(),
    };
    vec![
        photo("1", "", "\"Before\",\nas it came"),
        photo("a", "step paint", ""),
        photo("0", "step hull", "the hose’s clamp"),
    ]
}

const HEAD: &str = "format = \"pumpwright job\"\nversion = 1\n[job]\nid = \"a\"\ntitle = \"A\"\n";

fn of(photo: &str) -> Result<JobFile, String> {
    parse("job.toml", &format!("{HEAD}{photo}")).map_err(|complaint| complaint.to_string())
}

fn refused(photo: &str) -> String {
    let by = By {
        now: "2026-05-09T14:30:00+02:00[Europe/Berlin]".parse().unwrap(),
        device: "test".to_owned(),
        who: String::new(),
    };
    let file = match of(photo) {
        Ok(file) => file,
        Err(complaint) => return complaint,
    };
    let new = file.entries(&JobId::new("a").unwrap(), &[], &by);
    new.unwrap_err().to_string()
}

#[test]
fn law_what_cannot_be_is_refused_at_its_line() {
    let name = "ab".repeat(32);
    let size = "width = 10\nheight = 10\n";
    let cases = [
        (
            format!("[photos.ab]\n{size}"),
            "line 6, column 9",
            "names no picture",
        ),
        (
            format!("[photos.{}]\n{size}", name.to_uppercase()),
            "line 6, column 9",
            "names no picture",
        ),
        (
            format!("[photos.{name}]\nwidth = 0\nheight = 10\n"),
            "line 7, column 9",
            "1 to 2560",
        ),
        (
            format!("[photos.{name}]\nwidth = 10\nheight = 9000\n"),
            "line 8, column 10",
            "1 to 2560",
        ),
        (format!("[photos.{name}]\nwidth = 10\n"), "line 6", "height"),
        (
            format!("[photos.{name}]\n{size}subject = \"blob x\"\n"),
            "line 9, column 12",
            "“blob x”",
        ),
        (
            format!("[photos.{name}]\n{size}subject = \"step x\"\n"),
            "line 9, column 12",
            "“step x”",
        ),
        (
            format!("[photos.{name}]\n{size}bytes = \"\"\n"),
            "line 9",
            "bytes",
        ),
    ];
    for (photo, at, words) in cases {
        let said = refused(&photo);
        assert!(said.contains(at) && said.contains(words), "{photo}\n{said}");
    }
}

#[test]
fn law_a_photo_put_away_does_not_travel() {
    use workshop::act::{Act, Stamp};
    use workshop::decide::decide;
    use workshop::entry::{Body, EntryId};
    use workshop::photos::{PhotoHash, Photography};
    let id = JobId::new("a").unwrap();
    let by = By {
        now: "2026-05-09T14:30:00+02:00[Europe/Berlin]".parse().unwrap(),
        device: "test".to_owned(),
        who: String::new(),
    };
    let name = "ab".repeat(32);
    let file = of(&format!("[photos.{name}]\nwidth = 10\nheight = 10\n")).unwrap();
    let new = file.entries(&id, &[], &by).unwrap();
    let mut entries = jobfile::stored(&new, 0);
    let job = fold(&entries).0;
    assert!(write(&id, &JobDraft::of(&job)).contains(&name));
    let photo = PhotoHash::new(&name).unwrap();
    let away = Act::Record(Body::Photographed(Photography::PutAway { photo }));
    let stamp = Stamp {
        id: EntryId::new("away").unwrap(),
        now: by.now.clone(),
        device: String::new(),
        who: String::new(),
        seen: None,
    };
    let away = decide(&job, away, stamp).unwrap();
    entries.extend(jobfile::stored(&away, 2));
    assert!(!write(&id, &JobDraft::of(&fold(&entries).0)).contains("photos"));
    // The file brings it back.
    assert_eq!(file.entries(&id, &entries, &by).unwrap().len(), 1);
}
