-- DERIVED. Views for reports; they hold nothing of their own.

-- Readings that count, each with what its instrument's word was worth at that moment. state is "none named" when no
-- instrument was named and "never-calibrated" before the first span that the book knows.
CREATE VIEW reading_in_force AS
SELECT r.seq, r.row, r.lot, r.place, r.point, r.unit, r.instrument, r.value, r.symbol, r.typed, r.happened, r.by,
       CASE WHEN r.instrument = '' THEN 'none named'
            ELSE coalesce((SELECT s.state FROM instrument_span s
                           WHERE s.instrument = r.instrument AND s.from_ms <= r.happened
                             AND (s.until_ms IS NULL OR r.happened < s.until_ms)
                           ORDER BY s.from_ms DESC LIMIT 1), 'never-calibrated')
       END AS state
FROM reading r
WHERE r.voided_by IS NULL;
