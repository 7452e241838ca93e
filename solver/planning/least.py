"""Words for what a recommendation compares: prices, or where there are none the stock itself."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal


@dataclass(frozen=True)
class Least:
    """How the option with the least price or stock is spoken of.

    Attributes
    ----------
    currency
        Of the prices; None where something that is bought has none, so that sheets are
        compared by their area.
    """

    currency: str | None

    @property
    def named(self) -> str:
        """Return what it is."""
        return "the least stock" if self.currency is None else "the cheapest"

    @property
    def does(self) -> str:
        """Return the same after a name."""
        return f"{'takes' if self.currency is None else 'is'} {self.named}"

    @property
    def and_looks(self) -> str:
        """Return why an option is recommended that is best in both."""
        looks = "looks best" if self.currency is None else "the best-looking"
        return f"it {self.does} and {looks}"

    def saves(self, money: Decimal, sheets: int) -> str:
        """Return what it saves against another, `money` dearer with so many more `sheets`."""
        if self.currency is not None:
            return f"and saves {self.currency} {money}"
        return f"and saves {_sheets(sheets)}" if sheets > 0 else "in smaller sheets"

    def more(self, money: Decimal, sheets: int, *, same: bool) -> str:
        """Return what the other one takes more; `same` where that is nothing."""
        if same:
            return "costs the same" if self.currency is not None else "takes no more stock"
        if self.currency is not None:
            return f"costs {self.currency} {money} more"
        return f"takes {_sheets(sheets)} more" if sheets > 0 else "takes larger sheets"


def _sheets(count: int) -> str:
    return f"{count} sheet{'' if count == 1 else 's'}"
