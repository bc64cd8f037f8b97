//! Tip clearance from leaf gauge readings: cells, posterior, conformity.
