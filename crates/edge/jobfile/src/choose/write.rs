//! What to fit as tables. What is empty is left out.

use workshop::draft::ChoicesDraft;
use workshop::draft::choose::{CraftDraft, FittingDraft};

use crate::write::Page;

impl Page {
    pub(crate) fn choices(&mut self, draft: &ChoicesDraft) {
        draft.craft.iter().for_each(|craft| self.craft(craft));
        for (key, option) in &draft.options {
            self.table("[option]");
            self.text("key", key);
            self.fitting(option);
        }
        if let Some(wish) = &draft.wish {
            self.table("wish");
            self.text("want", &wish.want);
            self.filled("to", &wish.to);
        }
        for steady in &draft.steadies {
            self.table("[steady]");
            self.text("engine", &steady.engine);
            self.filled("speed", &steady.speed);
            self.filled("pull", &steady.pull);
        }
    }

    fn craft(&mut self, craft: &CraftDraft) {
        self.table("craft");
        self.filled("mass", &craft.mass);
        self.filled("riders", &craft.riders);
        self.filled("length", &craft.length);
        self.filled("beam", &craft.beam);
        self.filled("deadrise", &craft.deadrise);
        self.filled("balance", &craft.balance);
        self.filled("power", &craft.power);
        self.filled("rated", &craft.rated);
        self.filled("limiter", &craft.limiter);
        self.filled("breathing", &craft.breathing);
        self.filled("curve", &craft.curve);
        self.filled("wanted_from", &craft.wanted_from);
        self.filled("wanted_to", &craft.wanted_to);
        self.filled("impeller", &craft.impeller);
        self.filled("outing", &craft.outing);
        self.filled("page", &craft.page);
        if craft.fitted != FittingDraft::default() {
            self.table("craft.fitted");
            self.fitting(&craft.fitted);
        }
    }

    fn fitting(&mut self, fitting: &FittingDraft) {
        self.filled("name", &fitting.name);
        self.filled("leading", &fitting.leading);
        self.filled("trailing", &fitting.trailing);
        self.filled("radius", &fitting.radius);
        self.filled("angles", &fitting.angles);
        self.filled("maker", &fitting.maker);
        if !fitting.blades.is_empty() {
            self.line("blades", &fitting.blades);
        }
        self.filled("hub", &fitting.hub);
        self.filled("cup", &fitting.cup);
        self.filled("gap", &fitting.gap);
        self.filled("nozzle", &fitting.nozzle);
        self.filled("note", &fitting.note);
    }
}
