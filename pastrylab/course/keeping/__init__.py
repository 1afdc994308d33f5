"""Lesson 05, keeping."""
