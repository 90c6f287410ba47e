"""Running totals over each plant's counts, kept beside them so that 1,000 plants are summed up at once.

A stretch is the days from one count to the next. What opened and fell in it follows the rules of
`diagnose.measures.leaves.consistency`: a missing number is derived from the other, and where numbers contradict each
other neither is used. Totals run over the stretches whose losses are known; new leaves are then known as well.
`tests/journal/test_stretches.py` holds both to the same results.
"""

import sqlite3

_FROM_COUNTS = """
WITH ordered AS (
    SELECT date, CAST(julianday(date) AS INTEGER) AS day, present, new, lost,
           lag(present) OVER by_date AS before,
           CAST(julianday(date) - julianday(lag(date) OVER by_date) AS INTEGER) AS days
    FROM leaf_counts
    WHERE plant_id = :plant AND replaced = 0
      AND date >= coalesce((SELECT max(date) FROM leaf_counts
                            WHERE plant_id = :plant AND replaced = 0 AND date < :since), '')
    WINDOW by_date AS (ORDER BY date)
),
sound AS (
    SELECT *, before IS NOT NULL AND (new IS NOT NULL OR lost IS NOT NULL) AND CASE
            WHEN lost IS NULL THEN present <= before + new
            WHEN new IS NULL THEN present >= before - lost
            ELSE present = before + new - lost END AS fits
    FROM ordered
),
known AS (
    SELECT date, day, days, present, before,
           CASE WHEN fits THEN coalesce(new, present - before + lost) END AS new,
           CASE WHEN fits THEN coalesce(lost, before + new - present) END AS lost
    FROM sound
),
start AS (
    SELECT coalesce(max(total_counts), 0) AS counts, coalesce(max(total_new), 0) AS new,
           coalesce(max(total_lost), 0) AS lost, coalesce(max(total_days), 0) AS days,
           coalesce(max(total_leaf_days), 0.0) AS leaf_days
    FROM stretches WHERE plant_id = :plant AND date < :since
)
INSERT INTO stretches
SELECT :plant, date, day, days, present, new, lost, counts, total_new, total_lost, total_days, total_leaf_days
FROM (
    SELECT known.*,
           start.counts + sum(known.date >= :since) OVER upto AS counts,
           start.new + coalesce(sum(known.new) FILTER (WHERE known.date >= :since) OVER upto, 0) AS total_new,
           start.lost + coalesce(sum(known.lost) FILTER (WHERE known.date >= :since) OVER upto, 0) AS total_lost,
           start.days + coalesce(sum(known.days) FILTER (
               WHERE known.date >= :since AND known.lost IS NOT NULL) OVER upto, 0) AS total_days,
           start.leaf_days + coalesce(sum(known.days * max(before + present, known.lost) / 2.0) FILTER (
               WHERE known.date >= :since AND known.lost IS NOT NULL) OVER upto, 0.0) AS total_leaf_days
    FROM known, start WINDOW upto AS (ORDER BY known.date)
)
WHERE date >= :since
"""


def refresh(db: sqlite3.Connection, plant_id: int, since: str) -> None:
    """Derive one plant's stretches anew from a date on (ISO); call it in the transaction that changed the counts."""
    # totals are running ones, so the stretch before a change is right and everything from it on is not
    db.execute("DELETE FROM stretches WHERE plant_id = ? AND date >= ?", (plant_id, since))
    db.execute(_FROM_COUNTS, {"plant": plant_id, "since": since})


def rebuild(db: sqlite3.Connection) -> None:
    """Derive the stretches of every plant anew."""
    for (plant_id,) in db.execute("SELECT id FROM plants").fetchall():
        refresh(db, plant_id, "")


TOTALS = """
WITH latest AS MATERIALIZED (
    SELECT p.id AS plant_id,
           (SELECT max(date) FROM stretches WHERE plant_id = p.id) AS last_on,
           (SELECT min(date) FROM stretches WHERE plant_id = p.id) AS first_on,
           (SELECT max(date) FROM stretches WHERE plant_id = p.id AND lost IS NOT NULL) AS known_on
    FROM plants p WHERE p.gone_on IS NULL
),
split AS MATERIALIZED (
    SELECT latest.*, last.present, last.total_counts, last.total_new, last.total_lost, last.total_days,
           last.total_leaf_days,
           (SELECT max(s.date) FROM stretches s
            WHERE s.plant_id = latest.plant_id AND s.date < latest.known_on AND s.lost IS NOT NULL
              AND known.day - s.day + s.days / 2.0 > min(:recent, known.total_days / 2.0)) AS split_on
    FROM latest
    LEFT JOIN stretches last ON last.plant_id = latest.plant_id AND last.date = latest.last_on
    LEFT JOIN stretches known ON known.plant_id = latest.plant_id AND known.date = latest.known_on
)
SELECT split.plant_id, coalesce(split.total_counts, 0) AS counts, split.first_on, split.last_on, split.present,
       coalesce(border.present, (SELECT present FROM stretches
                                 WHERE plant_id = split.plant_id AND date = split.first_on)) AS present_before,
       coalesce(split.total_lost - coalesce(border.total_lost, 0), 0) AS lost_recent,
       coalesce(split.total_new - coalesce(border.total_new, 0), 0) AS new_recent,
       coalesce(split.total_days - coalesce(border.total_days, 0), 0) AS days_recent,
       coalesce(split.total_leaf_days - coalesce(border.total_leaf_days, 0), 0.0) AS leaf_days_recent,
       coalesce(border.total_lost, 0) AS lost_earlier,
       coalesce(border.total_new, 0) AS new_earlier,
       coalesce(border.total_days, 0) AS days_earlier,
       coalesce(border.total_leaf_days, 0.0) AS leaf_days_earlier
FROM split
LEFT JOIN stretches border ON border.plant_id = split.plant_id AND border.date = split.split_on
ORDER BY split.plant_id
"""
"""One row a plant still there: `LeafTotals`. `:recent` is the length of the recent part in days."""
