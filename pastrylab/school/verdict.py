"""What is said of a typed answer."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Verdict:
    """What grade says: status "right", "wrong", "unit" or "unreadable"; the message; the slip's name or "".

    >>> Verdict("wrong", "The rest needs a bowl too.", slip="rounded down").right
    False
    """

    status: str
    message: str
    slip: str = ""

    @property
    def right(self):
        """Whether the answer counts: True for the status "right" alone."""
        return self.status == "right"
