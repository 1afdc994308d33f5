"""Lesson 01, weigh, convert, scale."""
