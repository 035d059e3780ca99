

def issue() -> None:
    """X"""
