"""What several stages need: entries into fields, the job as it grows, words that are said alike."""
