"""The pictures of a sheet: the finished bag and each piece.  The one place where the sheet meets the drawings."""


def bag_pictures(_sheet):
    return []


def piece_pictures(_sheet):
    return []
