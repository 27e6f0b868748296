-- question: what was read and inspected this week?
-- parameters: :week  production week, ISO year x 100 + week; :from_ms, :until_ms  when that week begins and ends
-- columns: typed as the person gave it; number in number_unit from the stored integer (base/measure.h); state of the instrument then
WITH points AS (
    SELECT id, name, max(plan_seq) FROM plan_point GROUP BY id
), weeks AS (
    SELECT r.*, l.code FROM lot l JOIN reading r ON r.lot = l.id WHERE l.week = :week
    UNION ALL
    SELECT r.*, NULL FROM reading r WHERE r.place <> '' AND r.happened >= :from_ms AND r.happened < :until_ms
)
SELECT w.seq AS entry, local_time(w.happened) AS taken, coalesce(w.code, w.place) AS subject,
       coalesce(points.name, w.point) AS point, w.unit, w.typed,
       CASE WHEN w.symbol = '' THEN NULL
            WHEN w.symbol IN ('C', 'F', '%', 'pH', 'ppm', 'rpm', 'um', 'mm', 'cm', 'm', 'in') THEN w.value / 1e3
            WHEN w.symbol IN ('mg', 'g', 'kg', 't', 'lb', 'oz', 'aw') THEN w.value / 1e6
            WHEN w.symbol IN ('ms', 's', 'min', 'h', 'd') THEN w.value / 6e4
            WHEN w.symbol IN ('Pa', 'hPa', 'kPa') THEN w.value / 1e2
            ELSE w.value END AS number,
       CASE WHEN w.symbol IN ('C', 'F') THEN 'C'
            WHEN w.symbol IN ('um', 'mm', 'cm', 'm', 'in') THEN 'mm'
            WHEN w.symbol IN ('mg', 'g', 'kg', 't', 'lb', 'oz') THEN 'kg'
            WHEN w.symbol IN ('ms', 's', 'min', 'h', 'd') THEN 'min'
            WHEN w.symbol IN ('Pa', 'hPa', 'kPa') THEN 'hPa'
            ELSE w.symbol END AS number_unit,
       w.instrument,
       CASE WHEN w.instrument = '' THEN ''
            ELSE coalesce((SELECT s.state FROM instrument_span s
                           WHERE s.instrument = w.instrument AND s.from_ms <= w.happened
                             AND (s.until_ms IS NULL OR w.happened < s.until_ms)
                           ORDER BY s.from_ms DESC LIMIT 1), 'never-calibrated') END AS state,
       w.by AS who,
       CASE WHEN w.voided_by IS NOT NULL THEN 'by entry ' || w.voided_by END AS voided
FROM weeks w
LEFT JOIN points ON points.id = w.point
ORDER BY w.happened, w.seq, w.row;
