-- The figures that a report of a shift states
-- One row a figure. Parameters: production_date, shift. Reads: figure_now.
SELECT figure_now.figure, figure_now.key, figure_now.n, figure_now."value", figure_now.low, figure_now.high
FROM figure_now
WHERE
    figure_now.production_date = $production_date
    AND figure_now.shift IS NOT DISTINCT FROM $shift
ORDER BY figure_now.figure, figure_now.key;
