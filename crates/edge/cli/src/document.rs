//! What every JSON document of the program shares.

use schemars::Schema;
use serde::Serialize;

/// A document as text.
pub(crate) fn lines(value: &impl Serialize) -> String {
    // Every shape here is plain numbers and text under text keys, which always can be written.
    let text = serde_json::to_string_pretty(value).unwrap_or_default();
    format!("{text}\n")
}

/// A schema as text.
pub(crate) fn schema_of(schema: Schema) -> String {
    let mut schema = schema.to_value();
    // Whether a map keeps its order is settled by whatever else is built along.
    schema.sort_all_objects();
    lines(&schema)
}
