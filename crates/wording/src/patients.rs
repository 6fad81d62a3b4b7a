//! Patients of two cases that do not go together.

messages! {
    no_other_case = "no other case has its hospital number or name";
    number_of_another(number, name, born, case) = "hospital number {number} is in the register for {name}, born {born}, too (case {case}): one of the two is mistyped or another patient's; both may be compared with the wristband";
    another_number(name, born, number, case) = "{name}, born {born}, is in the register under hospital number {number}, too (case {case}): one of the two is mistyped or another patient's; both may be compared with the wristband";
}
