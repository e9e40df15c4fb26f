"""When to ask again: what the service says of it, else twice as long each time and not all callers at one moment."""

from __future__ import annotations

import random
from dataclasses import dataclass


@dataclass(frozen=True)
class Retries:
    """How often one request is sent at most, and how long to wait between, in seconds. Every request of the service may
    be sent again: it keeps nothing."""

    tries: int = 5
    first_wait: float = 0.5
    longest_wait: float = 30.0

    def wait(self, failures: int, retry_after: str | None = None) -> float:
        """Seconds to wait after so many failures, by `Retry-After` where the service sends it."""
        if retry_after and retry_after.strip().isdigit():
            return min(float(retry_after), self.longest_wait)
        return min(self.first_wait * 2.0 ** (failures - 1), self.longest_wait) * random.uniform(0.75, 1.25)
