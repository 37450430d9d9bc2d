"""A Modbus server with a fixed register image, from an independent library.

usage: field-device.py PORT IMAGE        Modbus TCP
       field-device.py rtu:PORT IMAGE    RTU over TCP
       field-device.py /PATH IMAGE       RTU on a serial port, 9600 8N1
image: a file whose name ends with .json, {"input-register": {"0": 4567, ...}, ...}, wire addresses, unit 1;
       or one like every-format/registers.txt, which may also say what is refused with which exception code
"""
import json
import sys

from pymodbus.bit_read_message import ReadCoilsRequest, ReadDiscreteInputsRequest
from pymodbus.datastore import ModbusServerContext, ModbusSlaveContext, ModbusSparseDataBlock
from pymodbus.register_read_message import ReadHoldingRegistersRequest, ReadInputRegistersRequest
from pymodbus.server import StartSerialServer, StartTcpServer
from pymodbus.transaction import ModbusRtuFramer

REQUESTS = {
    "coil": ReadCoilsRequest,
    "discrete-input": ReadDiscreteInputsRequest,
    "holding-register": ReadHoldingRegistersRequest,
    "input-register": ReadInputRegistersRequest,
}
IMAGE = {table: {} for table in REQUESTS}
REFUSALS = {table: {} for table in REQUESTS}


def read_line(line):
    """A table, an address and the words from there on, in hexadecimal, up to a comment."""
    table, first, *words = line.split()
    for address, word in enumerate(words, int(first)):
        if word.startswith("!"):
            REFUSALS[table][address] = int(word[1:], 16)
        else:
            IMAGE[table][address] = int(word, 16)


with open(sys.argv[2], encoding="utf-8") as file:
    if sys.argv[2].endswith(".json"):
        IMAGE.update(json.load(file))
    else:
        for text in (line.partition("#")[0].strip() for line in file):
            if text:
                read_line(text)


def refusing(table):
    """The library's own read, refused where the image says so."""

    class Refusing(REQUESTS[table]):
        def execute(self, context):
            for address in range(self.address, self.address + self.count):
                if address in REFUSALS[table]:
                    return self.doException(REFUSALS[table][address])
            return super().execute(context)

    return Refusing



def block(table):
    return ModbusSparseDataBlock({int(address): word for address, word in IMAGE[table].items()})


STORE = ModbusSlaveContext(
    co=block("coil"),
    di=block("discrete-input"),
    hr=block("holding-register"),
    ir=block("input-register"),
    zero_mode=True,
)
CONTEXT = ModbusServerContext(slaves={1: STORE}, single=False)
SERVED = {"context": CONTEXT, "custom_functions": [refusing(table) for table in REQUESTS]}
WHERE = sys.argv[1]
if WHERE.startswith("/"):
    StartSerialServer(**SERVED, framer=ModbusRtuFramer, port=WHERE, baudrate=9600, parity="N")
elif WHERE.startswith("rtu:"):
    StartTcpServer(**SERVED, framer=ModbusRtuFramer, address=("127.0.0.1", int(WHERE[4:])))
else:
    StartTcpServer(**SERVED, address=("127.0.0.1", int(WHERE)))
