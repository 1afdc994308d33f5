"""A picture's pixels as PNG bytes, opaque: twice as fast as a general encoder, which tries five filters on every row.

PNG (Portable Network Graphics), W3C Recommendation, 2003: signature, then chunks of length, name, data and CRC; each row
of pixels after a byte that names its filter. Here it is always "up", the difference from the row above: in a chart most
rows are the same as the one above, and zeros pack fast.
"""

import struct
import zlib

import numpy as np

_SIGNATURE = b"\x89PNG\r\n\x1a\n"
_EIGHT_BITS, _COLOUR, _UP = 8, 2, 2
_INCH = 0.0254  # m


def png_bytes(pixels, dpi):
    """PNG of an array (height, width, 3 or more) of uint8; beyond the first three, red, green and blue, none is used.

    >>> png_bytes(np.zeros((2, 3, 4), np.uint8), 100)[1:4]
    b'PNG'
    """
    height, width = pixels.shape[:2]
    rows = np.ascontiguousarray(pixels[..., :3]).reshape(height, 3 * width)
    filtered = np.empty((height, 1 + 3 * width), np.uint8)
    filtered[:, 0] = _UP
    filtered[0, 1:] = rows[0]
    np.subtract(rows[1:], rows[:-1], out=filtered[1:, 1:])
    head = struct.pack(">IIBBBBB", width, height, _EIGHT_BITS, _COLOUR, 0, 0, 0)
    per_metre = round(dpi / _INCH)
    chunks = (
        (b"IHDR", head),
        (b"pHYs", struct.pack(">IIB", per_metre, per_metre, 1)),
        (b"IDAT", zlib.compress(filtered, 1)),
        (b"IEND", b""),
    )
    return _SIGNATURE + b"".join(_chunk(name, data) for name, data in chunks)


def _chunk(name, data):
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))
