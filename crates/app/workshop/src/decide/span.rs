//! Ranges as a person would write them.

use quantity::{Entered, Unit, parse};

use super::{Range, within};
use crate::refusal::Refusal;

/// The least and the greatest that may be entered, as a person would write them.
pub(super) type Span = (&'static str, &'static str, Unit);

pub(super) fn in_span(
    field: &'static str,
    entered: Option<&Entered>,
    span: Span,
) -> Result<(), Refusal> {
    let Some(entered) = entered else {
        return Ok(());
    };
    let (least, greatest, unit) = span;
    // What is read as a person types it takes the very end of a range in.
    let of = |text| parse(text, unit).map_or(f64::NAN, |end| end.value);
    let (least, greatest) = (of(least), of(greatest));
    within(field, entered, &Range { least, greatest })
}

/// Several of one thing.
pub(super) fn all_in_span<'a>(
    all: impl IntoIterator<Item = (&'static str, Option<&'a Entered>, Span)>,
) -> Result<(), Refusal> {
    let mut all = all.into_iter();
    all.try_for_each(|(field, entered, span)| in_span(field, entered, span))
}
