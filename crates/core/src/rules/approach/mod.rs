//! Phacoemulsification or manual small-incision surgery?
