//! `HS-01` to `HS-06`: the stricter screening set of 1988, which a clinic switches on.

use super::{LENGTH_AND_K_TO_POWER, mean_k, mean_k_apart};
use crate::evidence::{HOLLADAY_1988, Standing};
use crate::limits::Switch;
use crate::quantity::Diopters;
use crate::rules::check::{at_most, within};
use crate::rules::{Because, Detail, Eyes, Facts, Group, Look, Missing, Quantity, Rule, Severity};

/// A rule of the set.
macro_rules! strict {
    (
        $rule:ident, $id:literal, $title:literal, $checks:literal, $why:literal, $limit:literal,
        [$($source:expr),*], [$($name:literal),*], $evaluate:ident
    ) => {
        #[doc = concat!("`", $id, "`.")]
        pub const $rule: Rule = Rule {
            id: $id,
            title: $title,
            group: Group::Believable,
            severity: Severity::Review,
            bearing: None,
            checks: concat!("Applied only if the clinic switched the stricter set on. ", $checks),
            why: concat!(
                "The stricter set was published in 1988 as the first part, the screening, of a three-part system. ",
                $why
            ),
            options: "Consider repeating the measurement. If it stands, the reason may be recorded. A clinic may switch the set off in its limits.",
            sources: &[
                Standing::Secondary.of(HOLLADAY_1988, concat!(
                        $limit,
                        " (limits from a summary; that screening is part one of three is printed in the abstract)"
                    )),
                $($source),*
            ],
            limits: &["strict_screening", $($name),*],
            evaluate: |facts| match facts.limits.strict_screening {
                Switch::On => $evaluate(facts),
                Switch::Off => Err(Because::StricterSetOff.into()),
            },
        };
    };
}

strict!(
    LENGTH,
    "HS-01",
    "Axial length is outside the stricter set",
    "Axial length of the operative eye against 22.00 and 25.00 mm unless the clinic sets others; both pass themselves.",
    "1 mm of axial length is 2.5 to 3 D of lens power.",
    "AL < 22 or > 25 mm",
    [LENGTH_AND_K_TO_POWER],
    ["strict_axial_shortest", "strict_axial_longest"],
    length
);
strict!(
    MEAN_K,
    "HS-02",
    "Mean K is outside the stricter set",
    "Mean K of the operative eye at index 1.3375, to the nearest 0.01 D, against 40.00 and 47.00 D unless the clinic sets others; both pass themselves.",
    "1 D of K is about 1 D of lens power.",
    "K < 40 or > 47 D",
    [LENGTH_AND_K_TO_POWER],
    ["strict_k_flattest", "strict_k_steepest"],
    mean
);
strict!(
    POWER,
    "HS-03",
    "Power for emmetropia is far from the average of the lens",
    "Power for emmetropia of the operative eye by the chosen formula, against the average power of the lens in its record: the difference, to the nearest 0.01 D, may be 3.00 D unless the clinic sets another limit. The limit itself passes.",
    "A power far from what the lens is usually implanted in belongs to an unusual eye or to an unusual error.",
    "emmetropic power > 3 D from the average of the lens",
    [],
    ["strict_power_off_average"],
    power
);
strict!(
    MEAN_K_APART,
    "HS-04",
    "Mean K between the eyes is outside the stricter set",
    "Difference of mean K between the eyes at index 1.3375, to the nearest 0.01 D, against 1.00 D unless the clinic sets another limit. The limit itself passes.",
    "The corneas of one person are usually alike.",
    "between eyes K > 1 D",
    [],
    ["strict_k_difference"],
    means_apart
);
strict!(
    LENGTHS_APART,
    "HS-05",
    "Axial length between the eyes is outside the stricter set",
    "Difference of axial length between the eyes against 0.30 mm unless the clinic sets another limit. The limit itself passes.",
    "0.30 mm of axial length is 0.75 to 0.9 D of lens power.",
    "between eyes AL > 0.3 mm",
    [],
    ["strict_axial_difference"],
    lengths_apart
);
strict!(
    POWERS_APART,
    "HS-06",
    "Power for emmetropia differs between the eyes",
    "Difference between the eyes of the power for emmetropia by the chosen formula and the chosen lens, to the nearest 0.01 D, against 1.00 D unless the clinic sets another limit. The limit itself passes.",
    "Lengths and corneas that each pass may still add up.",
    "between eyes emmetropic power > 1 D",
    [],
    ["strict_power_difference"],
    powers_apart
);

fn length(facts: &Facts<'_>) -> Look {
    let limits = facts.limits;
    let limits = [limits.strict_axial_shortest, limits.strict_axial_longest];
    Ok(within(Quantity::Length, facts.length()?, limits))
}

fn mean(facts: &Facts<'_>) -> Look {
    let limits = facts.limits;
    let limits = [limits.strict_k_flattest, limits.strict_k_steepest];
    Ok(within(Quantity::Magnitude, mean_k(facts)?, limits))
}

fn power(facts: &Facts<'_>) -> Look {
    let record = facts.draft.lens.record();
    let average = record.and_then(|record| record.average_power);
    let average = average.ok_or(Missing::AveragePower)?;
    let power = facts.emmetropic_power()?;
    let unusable = Missing::UsableEmmetropicPower { of: Eyes::This };
    let apart = power.apart(average.diopters()).ok_or(unusable)?;
    let power = power.nearest_hundredth().ok_or(unusable)?;
    let limit = facts.limits.strict_power_off_average;
    Ok(at_most(Quantity::Magnitude, apart, limit)
        .map(|finding| finding.with([Detail::EmmetropicPower { power, average }])))
}

fn means_apart(facts: &Facts<'_>) -> Look {
    let limit = facts.limits.strict_k_difference;
    Ok(at_most(Quantity::Magnitude, mean_k_apart(facts)?, limit))
}

fn lengths_apart(facts: &Facts<'_>) -> Look {
    let [operated, fellow] = facts.both_lengths()?;
    let limit = facts.limits.strict_axial_difference;
    Ok(at_most(Quantity::Length, operated.abs_diff(fellow), limit))
}

fn powers_apart(facts: &Facts<'_>) -> Look {
    let [operated, fellow] = facts.emmetropic_powers()?;
    let unusable = Missing::UsableEmmetropicPower { of: Eyes::Both };
    let apart = operated.apart(fellow).ok_or(unusable)?;
    let [operated, fellow] = [operated, fellow].map(Diopters::nearest_hundredth);
    let detail = operated.zip(fellow);
    let (operated, fellow) = detail.ok_or(unusable)?;
    let found = at_most(
        Quantity::Magnitude,
        apart,
        facts.limits.strict_power_difference,
    );
    let detail = Detail::EmmetropicPowers { operated, fellow };
    Ok(found.map(|finding| finding.with([detail])))
}

#[cfg(test)]
mod tests;
