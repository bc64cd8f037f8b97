//! Tools, and what is found at a joint, in and out of the store. All data are invented.

use ::store::body::{Encoded, decode, encode};
use workshop::draft::tools::{DepthDraft, ToolDraft, WrenchDraft};
use workshop::entry::{Body, Key};
use workshop::tools::{Role, Tooling};

fn key(text: &str) -> Key {
    Key::new(text).unwrap()
}

/// One of every kind, with as much in it as there can be.
pub(crate) fn every_kind() -> Vec<Tooling> {
    let wrench = WrenchDraft {
        name: "Click wrench, 3/8 in".into(),
        scale: "lbf·in".into(),
        least: "40".into(),
        most: "250".into(),
        step: "1 lbf·in".into(),
    };
    let tool = ToolDraft {
        wrench: "click".into(),
        lever: "200".into(),
        offset: "1.5 in".into(),
        angle: "45".into(),
    };
    let hole = DepthDraft {
        reach: "12".into(),
        threaded: "14.5 mm".into(),
        lost: "1,25".into(),
        insert: "12".into(),
    };
    let joint = || key("housing");
    vec![
        Tooling::WrenchDescribed {
            key: key("click"),
            wrench: wrench.read().unwrap(),
        },
        Tooling::RoleSaid {
            joint: joint(),
            role: Role::Stator,
        },
        Tooling::HoleMeasured {
            joint: joint(),
            hole: hole.read().unwrap(),
        },
        Tooling::ToolChosen {
            joint: joint(),
            tool: tool.read().unwrap(),
        },
    ]
}

#[test]
fn law_what_is_not_there_comes_back_as_not_there() {
    let mut bare = every_kind();
    for said in &mut bare {
        match said {
            Tooling::WrenchDescribed { wrench, .. } => wrench.step = None,
            Tooling::ToolChosen { tool, .. } => tool.adapter = None,
            Tooling::HoleMeasured { hole, .. } => hole.insert = None,
            Tooling::RoleSaid { role, .. } => *role = Role::Ordinary,
        }
    }
    for said in every_kind().into_iter().chain(bare) {
        let body = Body::Tooled(said);
        let Encoded {
            kind,
            version,
            json,
        } = encode(&body).unwrap();
        assert_eq!(decode(&kind, version, &json).unwrap(), body, "{json}");
        for (word, other) in [
            ("\"stator\"", "\"captain\""),
            ("\"scale\":\"lbf·in\"", "\"scale\":\"mm\""),
            ("\"torque_n_m\"", "\"length_m\""),
            ("\"click\"", "\"Click!\""),
        ] {
            let broken = json.replace(word, other);
            assert!(
                broken == json || decode(&kind, version, &broken).is_err(),
                "{broken}"
            );
        }
    }
}
