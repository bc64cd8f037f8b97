"""Shakes hands with the bench by OpenSSL, as Python's ssl has it, and says what came of it.

Arguments: port, file of an authority or "none", name to expect, most TLS version.
"""

import socket
import ssl
import sys

port, authority, name, most = sys.argv[1:]
context = ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT)
# What RFC 5280 asks of certificates, to the letter.
context.verify_flags |= ssl.VERIFY_X509_STRICT
context.maximum_version = ssl.TLSVersion[most]
if authority != "none":
    context.load_verify_locations(authority)
try:
    with socket.create_connection(("127.0.0.1", int(port)), timeout=10) as plain:
        with context.wrap_socket(plain, server_hostname=name) as sealed:
            print("trusted", sealed.version())
except ssl.SSLCertVerificationError as error:
    print("refused", error.verify_message)
except (ssl.SSLError, OSError) as error:
    print("failed", error)
