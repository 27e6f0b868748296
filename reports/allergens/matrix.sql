-- question: which allergens are in each product of the week, how surely, and why?
-- parameters: none of its own; the temporary table holds the week (src/site/report/allergen_tables.h)
-- columns: level contains, may-contain, carry-over, not-stated, formula (no lot brought it in the week), declared only
SELECT name, label, market, lots, allergen, level, declared, lot, source, reason, protein_mg_per_kg
FROM allergen_cell
ORDER BY ord;
