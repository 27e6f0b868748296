-- question: what did the loggers write this week, and what is odd about their files?
-- parameters: :week  production week, ISO year x 100 + week; :from_ms, :until_ms  when that week begins and ends
-- columns: a row a file and production day (what = "day"), a row a file of a lot (what = "file"), a row for each thing that is odd;
--          least, mean, most in number_unit; outside the rows that miss the limit, longest_min their longest stretch
WITH points AS (
    SELECT id, name, max(plan_seq) FROM plan_point GROUP BY id
), line AS (
    SELECT s.seq, 1 AS sort, d.day * 86400000 AS o, 'day' AS what, date(d.day * 86400, 'unixepoch') AS at, d.rows, d.least, d.mean, d.most,
           d.outside, d.longest_ms / 6e4 AS longest_min, NULL AS file_line,
           'of ' || s.rows || ' rows; in the file: ' || s.gaps || ' gaps, ' || s.duplicates || ' doubled, ' || s.two_values ||
           ' with two values, ' || s.out_of_order || ' out of order, ' || s.clock_steps || ' steps of its clock, ' || s.no_values ||
           ' without a value' AS detail
    FROM series_day d JOIN series s ON s.seq = d.seq
    WHERE d.week = :week
    UNION ALL
    SELECT s.seq, 1, s.first_ms, 'file', local_time(s.first_ms), s.rows, s.least, NULL, s.most, NULL, NULL, NULL,
           'to ' || local_time(s.last_ms) || '; ' || s.gaps || ' gaps, ' || s.duplicates || ' doubled, ' || s.two_values ||
           ' with two values, ' || s.out_of_order || ' out of order, ' || s.clock_steps || ' steps of its clock, ' || s.no_values ||
           ' without a value'
    FROM lot l JOIN series s ON s.lot = l.id
    WHERE l.week = :week
    UNION ALL
    SELECT s.seq, 2, f.from_ms, f.kind, local_time(f.from_ms), f.rows, NULL, NULL, NULL, NULL, NULL, f.line, f.detail
    FROM series_fault f JOIN series s ON s.seq = f.seq
    WHERE f.from_ms >= :from_ms AND f.from_ms < :until_ms
)
SELECT s.seq AS entry, line.what, line.at, coalesce(l.code, s.place) AS subject, coalesce(points.name, s.point) AS point, line.rows,
       CASE WHEN s.symbol IN ('C', 'F', '%', 'pH') THEN line.least / 1e3 ELSE line.least END AS least,
       CASE WHEN s.symbol IN ('C', 'F', '%', 'pH') THEN line.mean / 1e3 ELSE line.mean END AS mean,
       CASE WHEN s.symbol IN ('C', 'F', '%', 'pH') THEN line.most / 1e3 ELSE line.most END AS most,
       CASE WHEN line.least IS NULL THEN '' WHEN s.symbol IN ('C', 'F') THEN 'C' ELSE s.symbol END AS number_unit,
       line.outside, line.longest_min, line.file_line, line.detail, s.file, s.logger, s.sha256,
       CASE WHEN s.voided_by IS NOT NULL THEN 'by entry ' || s.voided_by END AS voided
FROM line JOIN series s ON s.seq = line.seq
LEFT JOIN lot l ON l.id = s.lot
LEFT JOIN points ON points.id = s.point
ORDER BY line.sort, s.seq, line.o, line.file_line;
