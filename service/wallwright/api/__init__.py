"""HTTP and nothing else."""
