//! Dangers that were once entered and came back without a word: each as an entry in an ordinary case.
//!
//! One table for every place they must be seen in. The suite of each crate takes this file and looks at
//! every row: rule and document, desk, plan in words and its JSON, sheet. A row that one of them leaves out
//! is a row that it fails.

mod entered;

use millrace_core::case::{Draft, Slot};
use millrace_core::case_file;
use millrace_core::lens::Place;
use millrace_core::limits::Limits;
use millrace_core::plan::{Evaluated, Plan};
use millrace_core::quantity::HundredthDiopters;
use millrace_core::rules::{Finding, Severity, Verdict};

/// One danger.
#[derive(Clone, Copy)]
pub(crate) struct Danger {
    pub(crate) name: &'static str,
    /// The rule that finds it, and the backup lens it is about.
    pub(crate) rule: &'static str,
    pub(crate) backup: Option<Place>,
    pub(crate) severity: Severity,
    pub(crate) enter: fn(&mut Draft),
}

const fn review(name: &'static str, rule: &'static str, enter: fn(&mut Draft)) -> Danger {
    Danger {
        name,
        rule,
        backup: None,
        severity: Severity::Review,
        enter,
    }
}

impl Danger {
    const fn stop(self) -> Self {
        Self {
            severity: Severity::Stop,
            ..self
        }
    }

    const fn note(self) -> Self {
        Self {
            severity: Severity::Note,
            ..self
        }
    }

    /// Of the lens that lies ready for this place.
    const fn ready_for(self, place: Place) -> Self {
        Self {
            backup: Some(place),
            ..self
        }
    }

    /// The ordinary case with this entered.
    pub(crate) fn draft(&self) -> Draft {
        let mut draft = ordinary();
        (self.enter)(&mut draft);
        draft
    }

    /// Its plan by the shipped limits.
    pub(crate) fn plan(&self) -> Plan {
        Plan::of(&self.draft(), Limits::shipped()).unwrap()
    }

    /// What the rule found in a plan, if it is not silent.
    pub(crate) fn found<'a>(&self, plan: &'a Plan) -> Option<(&'a Evaluated, &'a Finding)> {
        let mut rules = plan.rules.iter();
        let rule = rules.find(|it| (it.rule.id, it.backup) == (self.rule, self.backup))?;
        match &rule.verdict {
            Verdict::Finding(finding) => Some((rule, finding)),
            _ => None,
        }
    }
}

/// An ordinary eye of the demo, whole: no rule asks for anything.
pub(crate) fn ordinary() -> Draft {
    let text = include_str!("../../demo-data/cases/ordinary-eye.ron");
    case_file::read(text).unwrap()
}

/// What a spare for a +21 D eye was once left at.
const FAR: HundredthDiopters = HundredthDiopters::new(-1_150);

/// Every danger, as the places of the program are walked: backup lenses, state of the eye, nucleus,
/// constants, extremes, depth, second eye, person, openings.
pub(crate) const ALL: &[Danger] = &[
    review("spare for another eye", "PW-06", |draft| {
        entered::power_beside(draft, Slot::Backup(Place::Bag), FAR);
    })
    .ready_for(Place::Bag),
    review("sulcus lens for another eye", "PW-06", |draft| {
        entered::power_beside(draft, Slot::Backup(Place::Sulcus), FAR);
    })
    .ready_for(Place::Sulcus),
    review("anterior chamber IOL for another eye", "PW-06", |draft| {
        entered::chamber_lens(draft);
        let slot = Slot::Backup(Place::AnteriorChamber);
        entered::power_beside(draft, slot, HundredthDiopters::new(600));
    })
    .ready_for(Place::AnteriorChamber),
    review("spare of a power that is not made", "PW-01", |draft| {
        let slot = Slot::Backup(Place::Bag);
        entered::power_beside(draft, slot, HundredthDiopters::new(18));
    })
    .ready_for(Place::Bag)
    .stop(),
    review("spare of the other sign", "PW-07", |draft| {
        entered::spare_made_in_minus(draft);
    })
    .ready_for(Place::Bag),
    review(
        "planned lens two and a half diopters off",
        "PW-06",
        |draft| {
            entered::power_beside(draft, Slot::Planned, HundredthDiopters::new(350));
        },
    ),
    review(
        "one-piece acrylic lens for the sulcus",
        "SU-02",
        entered::one_piece_for_the_sulcus,
    ),
    review("anterior chamber IOL in a shallow eye", "AC-02", |draft| {
        entered::chamber_lens(draft);
        entered::depth(draft, "2.00 mm");
    }),
    review(
        "anterior chamber IOL over a defect of the iris",
        "AC-03",
        |draft| {
            entered::chamber_lens(draft);
            draft.eyes.right.state.iris_defect = Some(true);
        },
    ),
    review("anterior chamber IOL in a narrow angle", "AC-04", |draft| {
        entered::chamber_lens(draft);
        draft.eyes.right.state.narrow_angle = Some(true);
    }),
    review("anterior chamber IOL under few cells", "AC-05", |draft| {
        entered::chamber_lens(draft);
        entered::cells(draft, 1_100);
    }),
    review("posterior polar cataract", "PP-01", |draft| {
        draft.eyes.right.state.posterior_polar = Some(true);
        draft.eyes.right.state.polar_opacity = Some(entered::um(4_200));
    }),
    review("lens that trembles", "ZN-01", |draft| {
        draft.eyes.right.state.phacodonesis = Some(true);
    }),
    review("lens off center", "ZN-01", |draft| {
        draft.eyes.right.state.lens_decentration = Some(entered::um(1_500));
    }),
    review("pupil of 2 mm", "PU-01", |draft| {
        entered::pupil(draft, "2.00 mm");
    }),
    review("earlier vitrectomy", "VX-01", |draft| {
        draft.eyes.right.state.previous_vitrectomy = Some(true);
    }),
    review("injections into the vitreous", "IV-01", |draft| {
        draft.eyes.right.state.intravitreal_injections = Some(true);
    }),
    review("plaque on the posterior capsule", "CP-01", |draft| {
        draft.eyes.right.state.capsule_plaque = Some(true);
    }),
    review("corneal scar", "CS-01", |draft| {
        draft.eyes.right.state.corneal_scarring = Some(true);
    }),
    review(
        "irregular cornea and a lens without a cylinder",
        "IC-01",
        |draft| {
            draft.eyes.right.state.irregular_cornea = Some(true);
        },
    ),
    review("brunescent without a grade, shallow", "AP-01", |draft| {
        entered::nucleus_without_a_grade(draft);
        draft.eyes.right.state.brunescent = Some(true);
        entered::depth(draft, "2.60 mm");
    }),
    review("white without a grade, shallow", "AP-01", |draft| {
        entered::nucleus_without_a_grade(draft);
        draft.eyes.right.state.white_cataract = Some(true);
        entered::depth(draft, "2.60 mm");
    }),
    review("dense without a grade, shallow", "AP-01", |draft| {
        entered::nucleus_without_a_grade(draft);
        draft.eyes.right.state.dense_cataract = Some(true);
        entered::depth(draft, "2.60 mm");
    }),
    review(
        "color 6.9 beside opalescence 4.5, shallow",
        "AP-01",
        |draft| {
            entered::grade(draft, 45, 69);
            entered::depth(draft, "2.60 mm");
        },
    ),
    review("brunescent with grade 2", "NG-02", |draft| {
        entered::grade(draft, 20, 20);
        draft.eyes.right.state.brunescent = Some(true);
    }),
    review("grade at the limit", "NG-01", |draft| {
        entered::grade(draft, 49, 49);
    })
    .note(),
    review(
        "depth of a hard eye undecided against the limit",
        "DP-01",
        |draft| {
            entered::grade(draft, 58, 60);
            entered::depth(draft, "2.84 mm");
        },
    )
    .note(),
    review("A constant 117.8 for 118.7", "CT-03", |draft| {
        entered::converted_constants(draft);
        entered::a_constant(draft, 117.8);
    })
    .stop(),
    review("sign of the surgeon factor lost", "CT-03", |draft| {
        entered::converted_constants(draft);
        entered::surgeon_factor(draft, -1.62);
    })
    .stop(),
    review("pACD of 10 mm", "CT-04", |draft| {
        entered::personalized_acd(draft, 10.0);
    })
    .stop(),
    review("A constant of 130", "CT-04", |draft| {
        entered::a_constant(draft, 130.0);
    })
    .stop(),
    review("constants more than 1 D apart", "CT-05", |draft| {
        entered::a_constant(draft, 120.1);
    }),
    review("constants more than 2 D apart", "CT-06", |draft| {
        entered::a_constant(draft, 121.0);
    })
    .stop(),
    review(
        "another record of the model has other constants",
        "CT-07",
        entered::other_record,
    ),
    review(
        "the clinic's other record of the model",
        "CT-07",
        entered::other_record_of_the_clinic,
    ),
    review("formulas more than 2 D apart", "FD-02", |draft| {
        entered::a_constant(draft, 121.0);
    }),
    review("extreme chamber depth", "EX-01", |draft| {
        entered::depth(draft, "4.90 mm");
    }),
    review("extreme lens thickness", "EX-02", |draft| {
        entered::lens_thickness(draft, "6.40 mm");
    }),
    review("extreme corneal thickness", "EX-03", |draft| {
        entered::thickness(draft, "700 µm");
    }),
    review("hyperopic target", "TG-03", |draft| {
        draft.lens.target = Some(HundredthDiopters::new(75));
        draft.lens.consented_target = draft.lens.target;
    }),
    review("eyes planned more than 3 D apart", "AN-01", |draft| {
        draft.eyes.left.state.refraction = Some("-4.00 D".parse().unwrap());
    }),
    review(
        "refraction that biometry does not explain",
        "RF-01",
        |draft| {
            draft.eyes.right.state.refraction = Some("+3.00 D".parse().unwrap());
        },
    )
    .note(),
    review(
        "refinement by a first eye that ended far off",
        "SE-02",
        entered::refined_by_a_surprise,
    )
    .stop(),
    review("keratoconus", "KC-01", |draft| {
        draft.eyes.right.state.keratoconus = Some(true);
    }),
    review("unstable surface", "DS-01", |draft| {
        draft.eyes.right.state.unstable_surface = Some(true);
    }),
    review("readings that scatter", "SP-01", |draft| {
        let depth = draft.eyes.right.chamber_depth.as_mut().unwrap();
        depth.spread = Some(entered::um(200));
    }),
    review(
        "hard contact lenses two weeks before",
        "CW-01",
        entered::contact_lenses,
    ),
    review("the only eye", "OE-01", |draft| {
        draft.eyes.right.state.only_eye = Some(true);
    }),
    review(
        "sharp-needle block under anticoagulants",
        "BL-01",
        entered::needle_under_anticoagulants,
    ),
    review("a child", "AG-01", |draft| {
        draft.patient.birth_date = chrono::NaiveDate::from_ymd_opt(2014, 6, 2);
    }),
    review("white, swollen lens", "WC-02", |draft| {
        draft.eyes.right.state.white_cataract = Some(true);
        draft.eyes.right.state.intumescent = Some(true);
    }),
    review("very shallow with pseudoexfoliation", "PX-02", |draft| {
        draft.eyes.right.state.pseudoexfoliation = Some(true);
        entered::depth(draft, "2.40 mm");
    }),
    review("disease of the macula", "GP-01", |draft| {
        draft.eyes.right.state.macular_disease = Some(true);
    })
    .note(),
    review("silicone oil, length uncorrected", "SO-01", |draft| {
        let oil = millrace_core::biometry::SiliconeOil::LengthUncorrected;
        draft.eyes.right.state.silicone_oil = Some(oil);
    })
    .stop(),
    review("low endothelial cell density", "EN-01", |draft| {
        entered::cells(draft, 900);
    }),
    review(
        "whole nucleus in a shallow chamber",
        "CL-02",
        entered::delivered_whole,
    )
    .note(),
    review(
        "tunnel narrow for the nucleus",
        "CL-03",
        entered::delivered_whole,
    )
    .note(),
    review(
        "capsulorhexis too small for the whole nucleus",
        "CL-05",
        |draft| {
            entered::delivered_whole(draft);
            draft.approach.capsulorhexis = Some(entered::um(3_500));
        },
    ),
    review(
        "depth by contact ultrasound under the limit",
        "DP-04",
        |draft| {
            entered::grade(draft, 58, 60);
            entered::depth(draft, "2.60 mm");
            let depth = draft.eyes.right.chamber_depth.as_mut().unwrap();
            depth.method = millrace_core::biometry::Method::ContactUltrasound;
        },
    )
    .note(),
];

/// Letters and digits of a text, wherever its lines end: pages break lines where they like.
pub(crate) fn close(text: &str) -> String {
    let kept = text.chars();
    kept.filter(|letter| !letter.is_whitespace() && *letter != '\u{200b}')
        .collect()
}
