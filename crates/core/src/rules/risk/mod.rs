//! How likely are complications?
