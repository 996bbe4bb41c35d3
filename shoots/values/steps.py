"""How a computed number came about: the steps that a page opens when somebody taps the number.

A step holds no sentence. Its formula is a key that a template can turn into words, its expression is plain
mathematics, its source is a citation.

References
----------
Own arrangement; the sources stand in the steps themselves.
"""

from dataclasses import dataclass, replace

from shoots.values.spread import Between, Doubt


@dataclass(frozen=True, slots=True)
class Given:
    """One number that went into a step.

    Attributes
    ----------
    name : str
        The argument's name with its unit suffix, as the core's functions spell it.
    value : float
        The number, in ``unit``.
    unit : str
        Its unit; "1" for a pure number.
    """

    name: str
    value: float
    unit: str


@dataclass(frozen=True, slots=True)
class Step:
    """One formula with the numbers that went in and the number that came out.

    Attributes
    ----------
    formula : str
        Key of the quantity, such as ``incident_ev``.
    expression : str
        The formula as it is written on paper.
    inputs : tuple[Given, ...]
        What went in.
    result : float
        What came out, in ``unit``.
    unit : str
        Unit of the result.
    source : str
        Standard, book or practice the formula rests on.
    between : Between or None
        In which range the result lies likely, in ``unit``; None where nothing is said about it here.
    doubts : tuple[Doubt, ...]
        What that range comes from.
    """

    formula: str
    expression: str
    inputs: tuple[Given, ...]
    result: float
    unit: str
    source: str
    between: Between | None = None
    doubts: tuple[Doubt, ...] = ()

    def within(self, between: Between, doubts: tuple[Doubt, ...]) -> "Step":
        """Return the step with the range of its result.

        Parameters
        ----------
        between : Between
            The range, in the step's unit.
        doubts : tuple[Doubt, ...]
            What it comes from.
        """
        return replace(self, between=between, doubts=doubts)


@dataclass(frozen=True, slots=True)
class Formula:
    """A formula known by a key, from which steps are made.

    Attributes
    ----------
    key : str
        The quantity's key.
    expression : str
        The formula as it is written on paper.
    unit : str
        Unit of its result.
    source : str
        Where it comes from.
    """

    key: str
    expression: str
    unit: str
    source: str

    def step(self, result: float, *inputs: tuple[str, float, str]) -> Step:
        """Return the step that used this formula.

        Parameters
        ----------
        result : float
            What came out, in the formula's unit. [1]
        *inputs : tuple[str, float, str]
            Name, value and unit of each number that went in.
        """
        given = tuple(Given(name, float(value), unit) for name, value, unit in inputs)
        return Step(self.key, self.expression, given, float(result), self.unit, self.source)
