-- question: what must a shop show of goods sold loose or packed for direct sale?
-- parameters: none of its own; the temporary table holds the week (src/site/report/allergen_tables.h)
-- columns: one a group of EU 1169/2011 Annex II
SELECT name, sold, gluten, crustaceans, egg, fish, peanut, soy, milk, nuts, celery, mustard, sesame, sulphites, lupin, molluscs,
       may_contain
FROM loose_goods
ORDER BY ord;
