"""Lesson 09: a lab day planned backwards from an order."""
