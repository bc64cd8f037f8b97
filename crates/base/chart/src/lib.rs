//! Data to SVG; the one place that rounds numbers into pictures.
