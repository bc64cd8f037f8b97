//! The bench app: report pages over HTTP.
