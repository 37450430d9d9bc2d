"""A Modbus server with a fixed register image, from an independent library.

usage: field-device.py PORT IMAGE.json        Modbus TCP
       field-device.py rtu:PORT IMAGE.json    RTU over TCP
       field-device.py /PATH IMAGE.json       RTU on a serial port, 9600 8N1
image: {"input-register": {"0": 4567, ...}, ...}, wire addresses, unit 1
"""
import json
import sys

from pymodbus.datastore import ModbusServerContext, ModbusSlaveContext, ModbusSparseDataBlock
from pymodbus.server import StartSerialServer, StartTcpServer
from pymodbus.transaction import ModbusRtuFramer

with open(sys.argv[2], encoding="utf-8") as file:
    IMAGE = json.load(file)


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
WHERE = sys.argv[1]
if WHERE.startswith("/"):
    StartSerialServer(context=CONTEXT, framer=ModbusRtuFramer, port=WHERE, baudrate=9600, parity="N")
elif WHERE.startswith("rtu:"):
    StartTcpServer(context=CONTEXT, framer=ModbusRtuFramer, address=("127.0.0.1", int(WHERE[4:])))
else:
    StartTcpServer(context=CONTEXT, address=("127.0.0.1", int(WHERE)))
