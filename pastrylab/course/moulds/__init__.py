"""Lesson 06: shells and moulds."""
