"""One connection over which texts go both ways (RFC 6455), as browsers speak it to whoever drives them."""

from __future__ import annotations

import base64
import os
import socket


class WebSocket:
    """The client's side, to a server on this machine; texts only, without extensions."""

    def __init__(self, port: int, place: str, patience: float = 30) -> None:
        """`patience` [s] is how long the other side may say nothing while something is waited for."""
        self._socket = socket.create_connection(("127.0.0.1", port), timeout=patience)
        self._heard = b""
        head = (
            f"GET {place} HTTP/1.1",
            f"Host: 127.0.0.1:{port}",
            "Upgrade: websocket",
            "Connection: Upgrade",
            f"Sec-WebSocket-Key: {base64.b64encode(os.urandom(16)).decode()}",
            "Sec-WebSocket-Version: 13",
        )
        self._socket.sendall("\r\n".join([*head, "", ""]).encode())
        while b"\r\n\r\n" not in self._heard:
            self._more()
        self._heard = self._heard.split(b"\r\n\r\n", 1)[1]

    def end(self) -> None:
        """Close it."""
        self._socket.close()

    def send(self, text: str) -> None:
        """Send a text."""
        # 5.2: one text frame, masked as a client must; not every browser takes a mask of noughts for one.
        content = text.encode()
        mask = os.urandom(4)
        size = len(content)
        if size < 126:
            length = bytes([0x80 | size])
        elif size < 1 << 16:
            length = b"\xfe" + size.to_bytes(2, "big")
        else:
            length = b"\xff" + size.to_bytes(8, "big")
        over = (mask * (size // 4 + 1))[:size]
        masked = int.from_bytes(content, "big") ^ int.from_bytes(over, "big")
        self._socket.sendall(b"\x81" + length + mask + masked.to_bytes(size, "big"))

    def receive(self) -> str:
        """The next text; TimeoutError where none comes in time."""
        text = b""
        while True:
            first, second = self._take(2)
            size = second & 0x7F
            if size > 125:
                size = int.from_bytes(self._take(2 if size == 126 else 8), "big")
            part = self._take(size)
            if first & 0x0F in (0, 1):
                text += part
                if first & 0x80:
                    return text.decode()

    def _take(self, count: int) -> bytes:
        while len(self._heard) < count:
            self._more()
        taken, self._heard = self._heard[:count], self._heard[count:]
        return taken

    def _more(self) -> None:
        more = self._socket.recv(1 << 20)
        assert more, "the browser is gone"
        self._heard += more
