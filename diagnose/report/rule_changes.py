"""Two rankings of one case side by side: only what differs."""

from diagnose.language import _
from diagnose.ranking import RankedCause, Ranking
from diagnose.report.words import decibans, percent


def changes_text(title: str, before: Ranking, after: Ranking) -> str:
    """Return the causes whose rank, score or lines differ, before and after; an empty text if none do."""
    old = {cause.id: cause for cause in before.causes}
    new = {cause.id: cause for cause in after.causes}
    rows = []
    for cause_id in dict.fromkeys([*new, *old]):
        one, other = old.get(cause_id), new.get(cause_id)
        if _told(one) != _told(other):
            name = (other or one).name  # type: ignore[union-attr]
            rows.append(f"{name[:31]:<31}{_side(one)}   {_side(other)}")
            rows += [f"  {line}" for line in _lines(one, other)]
    if not rows:
        return ""
    then, now = _("before"), _("after")
    return "\n".join([title, f"{'':<31}{then:>21}   {now:>21}", *rows])


def _told(cause: RankedCause | None) -> tuple[object, ...] | None:
    return (cause.rank, cause.score_db, cause.name) if cause else None


def _side(cause: RankedCause | None) -> str:
    if cause is None:
        return _("not there").rjust(21)
    return f"{cause.rank:>3} {percent(cause.probability):>6} {decibans(cause.score_db):>10}"


def _lines(one: RankedCause | None, other: RankedCause | None) -> list[str]:
    """Return the ledger's lines that came (+) or went (-)."""
    old = {(line.rule, line.decibans): line for line in (one.lines if one else ()) if line.kind != "prior"}
    new = {
        (line.rule, line.decibans): line for line in (other.lines if other else ()) if line.kind != "prior"
    }
    gone = [
        f"- {decibans(line.decibans)} {line.rule or line.text}" for key, line in old.items() if key not in new
    ]
    come = [
        f"+ {decibans(line.decibans)} {line.rule or line.text}" for key, line in new.items() if key not in old
    ]
    return gone + come
