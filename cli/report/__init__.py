"""A plan as a page, a printout, a workbook and a calendar."""
