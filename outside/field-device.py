"""A Modbus TCP server with a fixed register image, from an independent library.

usage: field-device.py PORT IMAGE.json    image: {"input-register": {"0": 4567, ...}, ...}, wire addresses, unit 1
"""
import json
import sys

from pymodbus.datastore import ModbusServerContext, ModbusSlaveContext, ModbusSparseDataBlock
from pymodbus.server import StartTcpServer

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
StartTcpServer(context=ModbusServerContext(slaves={1: STORE}, single=False), address=("127.0.0.1", int(sys.argv[1])))
