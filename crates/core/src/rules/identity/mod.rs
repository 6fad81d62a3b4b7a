//! Is this the right patient, eye and target?

pub mod id_01;
pub mod id_02;
pub mod id_03;
pub mod id_04;
pub mod id_05;
pub mod id_06;
pub mod id_07;
pub mod id_08;
pub mod sl_01;
pub mod sl_02;
