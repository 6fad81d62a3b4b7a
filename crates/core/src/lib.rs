//! Plans one cataract operation for one eye of one patient: which lens power, what refraction it
//! should leave, which approach, and what speaks against it.
//!
//! The crate is pure: it knows nothing of files, clocks, locales, the environment, windows or
//! databases. Time, identity and limits are arguments. The same inputs give the same bits on every
//! platform: transcendental functions come from [`quantity::math`], maps are ordered, and no
//! multiplication is fused with a sum.
//!
//! Reading order, lowest layer first: [`calendar`] → [`quantity`] → [`evidence`] → [`optics`] →
//! [`iol_power`] → [`biometry`] → [`lens`] → [`choice`] → [`limits`] → [`chamber`] →
//! [`astigmatism`] → [`certainty`] → [`finding`] → [`case`] → [`prediction`] → [`case_file`] →
//! [`second_eye`] → [`rules`] → [`plan`] → [`document`] → [`signing`].

pub mod calendar;

pub mod quantity;

pub mod evidence;

pub mod optics;

pub mod iol_power;

pub mod biometry;

pub mod lens;

pub mod choice;

pub mod limits;

pub mod chamber;

pub mod astigmatism;

pub mod certainty;

pub mod finding;

pub mod case;

pub mod prediction;

pub mod case_file;

pub mod second_eye;

pub mod rules;

pub mod plan;

pub mod document;

pub mod reference;

pub mod signing;
