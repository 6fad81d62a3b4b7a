//! Plans one cataract operation for one eye of one patient: which lens power, what refraction it
//! should leave, which approach, and what speaks against it.
//!
//! The crate is pure: it knows nothing of files, clocks, locales, the environment, windows or
//! databases. Time, identity and limits are arguments. The same inputs give the same bits on every
//! platform: transcendental functions come from [`quantity::math`], maps are ordered, and no
//! multiplication is fused with a sum.
//!
//! Reading order: [`quantity`] → [`optics`] → [`evidence`] → [`biometry`] → [`lens`] →
//! [`iol_power`] → [`certainty`] → [`astigmatism`] → [`chamber`] →
//! [`second_eye`] → [`rules`] → [`case`] → [`plan`] → [`case_file`] → [`signing`].

pub mod quantity;

pub mod optics;

pub mod evidence;

pub mod biometry;

pub mod lens;

pub mod iol_power;

pub mod certainty;

pub mod astigmatism;

pub mod chamber;

pub mod limits;

pub mod second_eye;

pub mod rules;

pub mod case;

pub mod plan;

pub mod case_file;

pub mod signing;

pub mod reference;

pub mod calendar;

pub mod words;
