//! Cases that are hard to set: names of every shipped script, long names, thirty findings, a toric
//! lens in a hard eye.

use millrace_core::case::{Draft, Told};
use millrace_core::case_file;

use super::{case, reasoned};

/// A name, and what makes it hard.
pub(crate) const NAMES: [(&str, &str); 11] = [
    (
        "two-first-names",
        "van der Straeten-Okpara, Anna-Lena Josephine Wilhelmina",
    ),
    (
        "long",
        "Wolfeschlegelsteinhausenbergerdorff-Featherstonehaugh, Maximiliane Theodora Euphrosyne Adelheid Konstanze von und zu Ebe",
    ),
    ("devanagari", "राजेश्वरी श्रीवास्तव"),
    ("arabic", "مريم عبد الرحمن الخطيب"),
    ("hebrew", "שרה בן־דוד"),
    ("chinese", "歐陽曉明 (欧阳晓明)"),
    ("cyrillic", "Щербакова-Ковальчук, Мария Александровна"),
    ("bengali", "রহিমা খাতুন"),
    ("tamil", "முத்துலட்சுமி"),
    ("vietnamese", "Nguyễn Thị Hương"),
    ("mixed", "Al-Khatib, Maryam (مريم الخطيب)"),
];

/// Names in every other script that is carried, two of them to a name: they have a list, and no pages.
pub(crate) const MORE_NAMES: [&str; 9] = [
    "김민수 (山﨑さくら)",
    "สมชาย ใจดี, ສົມພອນ ວົງສາ",
    "Անահիտ Սարգսյան, ნინო ბერიძე",
    "አበበ ቢቂላ",
    "សុខា ចាន់, အောင်မြင့် စိုးဝင်း",
    "ශ්\u{200d}රීමතී පෙරේරා",
    "గోపాల్ రెడ్డి, ಕಮಲ ಹೆಗ್ಡೆ",
    "മീര നായർ, ગીતા પટેલ",
    "ਗੁਰਪ੍ਰੀਤ ਕੌਰ, ଗୀତା ମହାନ୍ତି",
];

/// The ordinary eye of a patient with this name, whose reasons are in the same script.
pub(crate) fn named(name: &str) -> Draft {
    let mut draft = case("hard-and-shallow");
    draft.patient.name = Some(name.to_owned());
    draft
}

/// Everything theatre could be told.
pub(crate) fn full_theatre(mut draft: Draft) -> Draft {
    let texts = |list: &[&str]| {
        list.iter()
            .map(|text| (*text).to_owned())
            .collect::<Vec<_>>()
    };
    draft.theatre.viscoelastic = Some("dispersive, then cohesive".to_owned());
    draft.theatre.technique = texts(&[
        "stain the capsule",
        "hydrodissection",
        "divide and conquer",
        "wound hydrated, one suture if it leaks",
    ]);
    draft.theatre.in_room = texts(&[
        "capsular tension ring 12/10 mm",
        "trypan blue",
        "iris hooks ×5",
    ]);
    draft.theatre.allergies = Some(Told::These(texts(&["latex", "povidone-iodine"])));
    draft.theatre.medicines = Some(Told::These(texts(&[
        "tamsulosin until 2025",
        "warfarin, INR 2.4 on 1 Dec",
    ])));
    draft
}

/// A toric lens in a hard, shallow eye: three figures beside each other.
pub(crate) fn toric_and_hard() -> Draft {
    let mut draft = full_theatre(case("astigmatic-eye"));
    let hard = case("hard-and-shallow");
    let (from, to) = (
        hard.eyes.get(hard.operation.eye.unwrap()),
        draft.operation.eye.unwrap(),
    );
    let eye = draft.eyes.get_mut(to);
    eye.chamber_depth.clone_from(&from.chamber_depth);
    eye.state.nucleus = from.state.nucleus;
    eye.lens_thickness.clone_from(&from.lens_thickness);
    draft.approach.nucleus = hard.approach.nucleus;
    draft
}

/// More than thirty findings, each Review among them with a long reason: as many as the rules can
/// have in one eye at once.
pub(crate) fn thirty_findings() -> Draft {
    let text = include_str!("everything-found.ron");
    let draft = full_theatre(case_file::read(text).unwrap());
    reasoned(
        &draft,
        "Seen and weighed with the patient on two visits; the alternatives were explained, with their risks, and this was chosen.",
    )
}
