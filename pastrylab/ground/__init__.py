"""The ground floor: text to numbers and back, units at the door, money, CSV reading, the workbook's folder."""
