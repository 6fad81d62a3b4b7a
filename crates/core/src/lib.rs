//! Plans one cataract operation for one eye of one patient: which lens power, what refraction it
//! should leave, which approach, and what speaks against it.
//!
//! The crate is pure: it knows nothing of files, clocks, locales, the environment, windows or
//! databases. Time, identity and limits are arguments. The same inputs give the same bits on every
//! platform: transcendental functions come from [`quantity::math`], maps are ordered, and no
//! multiplication is fused with a sum.
//!
//! Reading order, lowest layer first: [`calendar`] → [`plain_text`] → [`quantity`] → [`evidence`] → [`optics`] →
//! [`iol_power`] → [`biometry`] → [`lens`] → [`choice`] → [`limits`] → [`chamber`] →
//! [`astigmatism`] → [`certainty`] → [`finding`] → [`case`] → [`prediction`] → [`case_file`] →
//! [`second_eye`] → [`rules`] → [`plan`] → [`document`] → [`signing`].

pub mod astigmatism;
pub mod biometry;
pub mod calendar;
pub mod case;
pub mod case_file;
pub mod certainty;
pub mod chamber;
pub mod choice;
pub mod document;
pub mod evidence;
pub mod finding;
pub mod iol_power;
pub mod lens;
pub mod limits;
pub mod optics;
pub mod plain_text;
pub mod plan;
pub mod prediction;
pub mod quantity;
pub mod reference;
pub mod rules;
pub mod second_eye;
pub mod signing;
