//! x
use crate::fuzz::demo_cases;
use millrace_core::case_file;
use millrace_core::limits::Limits;
use millrace_core::plan::Plan;
use millrace_core::signing::ready;

#[test]
fn dump() {
    for text in demo_cases() {
        let draft = case_file::read(&text).unwrap();
        let Ok(plan) = Plan::of(&draft, Limits::shipped()) else {
            println!("no plan");
            continue;
        };
        println!("== {:?}", draft.patient.name);
        if let Some(spare) = &plan.spare {
            for c in &spare.bag.columns {
                println!(
                    "{:?} {:?}",
                    c.formula,
                    c.answer.as_ref().map(|a| (a.exact_power, a.proposed))
                );
            }
            for s in &spare.sulcus {
                println!("{s:?}");
            }
        }
        if let Some(l) = &plan.chamber_lens {
            for c in &l.columns {
                println!(
                    "ch {:?} {:?}",
                    c.formula,
                    c.answer.as_ref().map(|a| (a.exact_power, a.proposed))
                );
            }
        }
        for o in ready(&draft, &plan) {
            println!("  {o}");
        }
    }
}
