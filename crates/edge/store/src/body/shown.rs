//! The result a person took, as it was shown.

use serde::{Deserialize, Serialize};
use workshop::gap;

#[derive(Serialize, Deserialize)]
#[serde(remote = "clearance::Verdict", rename_all = "kebab-case")]
pub(super) enum Verdict {
    In,
    Out,
    Undecided,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(clippy::struct_field_names, reason = "the keys carry the unit")]
struct Estimate {
    median_m: f64,
    low_m: f64,
    high_m: f64,
}

impl From<clearance::Estimate> for Estimate {
    fn from(estimate: clearance::Estimate) -> Self {
        Self {
            median_m: estimate.median,
            low_m: estimate.low,
            high_m: estimate.high,
        }
    }
}

impl From<Estimate> for clearance::Estimate {
    fn from(estimate: Estimate) -> Self {
        Self {
            median: estimate.median_m,
            low: estimate.low_m,
            high: estimate.high_m,
        }
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Shown {
    evidence: String,
    #[serde(with = "Verdict")]
    verdict: clearance::Verdict,
    inside_probability: Option<f64>,
    required_probability: f64,
    least: Estimate,
    mean: Estimate,
    greatest: Estimate,
}

impl From<&gap::Shown> for Shown {
    fn from(shown: &gap::Shown) -> Self {
        Self {
            evidence: shown.evidence.clone(),
            verdict: shown.verdict,
            inside_probability: shown.within,
            required_probability: shown.required,
            least: shown.least.into(),
            mean: shown.mean.into(),
            greatest: shown.greatest.into(),
        }
    }
}

impl From<Shown> for gap::Shown {
    fn from(shown: Shown) -> Self {
        Self {
            evidence: shown.evidence,
            verdict: shown.verdict,
            within: shown.inside_probability,
            required: shown.required_probability,
            least: shown.least.into(),
            mean: shown.mean.into(),
            greatest: shown.greatest.into(),
        }
    }
}
