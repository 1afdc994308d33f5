"""pastrylab: the numbers behind the chocolate bench, checked in a workbook of lessons."""
