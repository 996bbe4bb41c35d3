"""A step repeats its formula with the numbers that were used."""

from shoots.values.steps import Formula, Given


def test_a_step_carries_formula_inputs_result_unit_and_source() -> None:
    formula = Formula("reciprocal", "y = 1/x", "s", "Own derivation")
    step = formula.step(0.5, ("x_hz", 2, "Hz"))
    assert (step.formula, step.expression, step.unit, step.source) == (
        "reciprocal",
        "y = 1/x",
        "s",
        "Own derivation",
    )
    assert step.inputs == (Given("x_hz", 2.0, "Hz"),)
    assert step.result == 0.5
