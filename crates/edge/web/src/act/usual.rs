//! What was answered before the usual plan.

use workshop::draft::bench::UsualDraft;
use workshop::refusal::Refusal;
use workshop::usual::Craft;

use super::Sent;

pub(super) fn craft(sent: &Sent) -> Result<Craft, Refusal> {
    let draft = UsualDraft {
        ring: sent.get("ring"),
        driveline: sent.get("driveline"),
        shoe: sent.get("shoe"),
        bearing: sent.get("bearing"),
        has: sent.all("has"),
        housing: sent.get("housing"),
        cone: sent.get("cone"),
        nozzle: sent.get("nozzle"),
        pump: sent.get("pump"),
        grate: sent.get("grate"),
        plate: sent.get("plate"),
    };
    draft.read()
}
