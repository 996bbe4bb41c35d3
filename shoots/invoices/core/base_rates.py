"""Reference rates that the interest on late invoices is counted from, as dated data.

A studio must be able to correct and continue these tables: the program never assumes that a half-year has
the rate of the one before.

References
----------
.. [1] Bank of England, Bank Rate. Values up to 2023-12-31 agree with the table of reference rates published
   at payontime.co.uk; those of 2024-06-30, 2025-06-30 and 2026-06-30 were seen in news of the decisions;
   2024-12-31 and 2025-12-31 are from memory.
.. [2] European Central Bank, main refinancing operations rate: from memory.
"""

from __future__ import annotations

from datetime import date
from decimal import Decimal

UK_BASE_RATES: dict[date, Decimal] = {
    date(2018, 12, 31): Decimal("0.75"),
    date(2019, 6, 30): Decimal("0.75"),
    date(2019, 12, 31): Decimal("0.75"),
    date(2020, 6, 30): Decimal("0.10"),
    date(2020, 12, 31): Decimal("0.10"),
    date(2021, 6, 30): Decimal("0.10"),
    date(2021, 12, 31): Decimal("0.25"),
    date(2022, 6, 30): Decimal("1.25"),
    date(2022, 12, 31): Decimal("3.50"),
    date(2023, 6, 30): Decimal("5.00"),
    date(2023, 12, 31): Decimal("5.25"),
    date(2024, 6, 30): Decimal("5.25"),
    date(2024, 12, 31): Decimal("4.75"),
    date(2025, 6, 30): Decimal("4.25"),
    date(2025, 12, 31): Decimal("3.75"),
    date(2026, 6, 30): Decimal("3.75"),
}
"""Bank Rate in force on each 30 June and 31 December. [%]"""

EU_REFERENCE_RATES: dict[date, Decimal] = {
    date(2023, 1, 1): Decimal("2.50"),
    date(2023, 7, 1): Decimal("4.00"),
    date(2024, 1, 1): Decimal("4.50"),
    date(2024, 7, 1): Decimal("4.25"),
    date(2025, 1, 1): Decimal("3.15"),
    date(2025, 7, 1): Decimal("2.15"),
}
"""Main refinancing rate on each 1 January and 1 July. [%]"""
