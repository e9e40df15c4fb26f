"""Data frames of pandas, by the tables of the service."""

from __future__ import annotations

import io
from typing import Any


def table_of(frame: Any) -> str:
    """A frame as a table; a column `diameter [in]` has a field's bare numbers in inches."""
    return str(frame.reset_index(drop=True).to_csv(index=False))


def frame_of(text: str, frame: Any) -> Any:
    """The sender's own columns as they were, and the answers' columns behind them. A row with several lines of answer,
    such as the holes of a pattern, is there as often, under the same index."""
    import pandas

    answered = pandas.read_csv(io.StringIO(text), dtype={name: str for name in frame.columns})
    at = answered.pop("row") - 1 if "row" in answered and "row" not in frame else range(len(answered))
    if len(answered) and max(at) >= len(frame):
        raise ValueError(f"{len(answered)} lines came for {len(frame)} rows")
    own = frame.iloc[list(at)]
    new = answered.drop(columns=[name for name in frame.columns if name in answered])
    new.index = own.index
    return pandas.concat([own, new], axis=1)
