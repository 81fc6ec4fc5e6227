"""What the user said: one model file a subject, the answers, and all changes to a job."""
