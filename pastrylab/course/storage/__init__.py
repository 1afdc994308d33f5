"""Lesson 07: store and serve."""
