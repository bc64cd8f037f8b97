//! Each kind: its checks, in the order they are done.

use super::{Check, FitKind, Kind, Pressed};

impl Kind {
    /// All, in the order they are offered.
    pub const ALL: [Self; 11] = [
        Self::Impeller,
        Self::Press,
        Self::Lips,
        Self::ORing,
        Self::Fill,
        Self::Spline,
        Self::Shims,
        Self::Hose,
        Self::Cable,
        Self::Plug,
        Self::Anode,
    ];
}

impl FitKind {
    /// Which kind.
    pub fn kind(&self) -> Kind {
        match self {
            Self::Press(_) => Kind::Press,
            Self::Lips(_) => Kind::Lips,
            Self::ORing { .. } => Kind::ORing,
            Self::Fill(_) => Kind::Fill,
            Self::Spline { .. } => Kind::Spline,
            Self::Hose { .. } => Kind::Hose,
            Self::Cable { .. } => Kind::Cable,
            Self::Plug { .. } => Kind::Plug,
            Self::Anode { .. } => Kind::Anode,
            Self::Shims(_) => Kind::Shims,
            Self::Impeller(_) => Kind::Impeller,
        }
    }

    /// What is ticked of it, in the order it is done.
    pub fn checks(&self) -> Vec<Check> {
        use Check::{
            Bare, BumpersIn, ByStud, Clamped, Clean, Compound, Dry, Facing, Filled, FullTravel,
            Greased, HolderSeated, Home, InLine, Locked, NewSeal, NotPinched, NotTwisted, OldOut,
            Pulled, Reached, ThreadsSet, Tightened, TurnsFree, Unpainted,
        };
        match self {
            Self::Press(press) if press.what == Pressed::Bush => vec![Clean, Home],
            Self::Press(press) if press.front.is_none() => vec![Clean, Home, TurnsFree],
            Self::Press(_) => vec![Clean, Facing, Home, TurnsFree],
            Self::Lips(_) => vec![Clean, Facing, Greased, Home, TurnsFree],
            Self::ORing { .. } => vec![Clean, Greased, NotTwisted, NotPinched],
            Self::Fill(_) => vec![Clean, OldOut, Filled, Reached],
            Self::Spline { bumpers: true, .. } => vec![Clean, Greased, BumpersIn, Home],
            Self::Spline { .. } => vec![Clean, Greased, Home],
            Self::Hose { .. } => vec![Clean, Home, Clamped, Pulled],
            Self::Cable { threads: None } => vec![Clean, Greased, Locked, FullTravel],
            Self::Cable { .. } => vec![Clean, Greased, ThreadsSet, Locked, FullTravel],
            Self::Plug { .. } => vec![Clean, NewSeal, Tightened, Dry],
            Self::Anode { .. } => vec![Bare, Tightened, Unpainted],
            Self::Shims(_) => vec![Clean, ByStud, Tightened, InLine],
            Self::Impeller(_) => vec![Clean, Compound, HolderSeated, Tightened, TurnsFree],
        }
    }
}
