"""Lesson 08, cost and price."""
