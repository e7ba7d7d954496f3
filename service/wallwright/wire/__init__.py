"""What travels: Structs and the contract's limits, nothing else."""
