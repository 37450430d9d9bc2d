/* A field device on libmodbus: unit 1 with 125 holding registers, for one client at a time.
 * server tcp       listens on a free loopback port and prints it
 * server rtu PATH  answers on a serial port
 */
#include <arpa/inet.h>
#include <errno.h>
#include <modbus/modbus.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

enum { REGISTERS = 125, FIRST_VALUE = 0x1100, PATIENCE_SECONDS = 5 };

static int fail(const char *what)
{
    fprintf(stderr, "server: %s: %s\n", what, modbus_strerror(errno));
    return 1;
}

static modbus_mapping_t *registers(void)
{
    modbus_mapping_t *map = modbus_mapping_new(0, 0, REGISTERS, 0);
    for (int i = 0; map && i < REGISTERS; i++) {
        map->tab_registers[i] = FIRST_VALUE + i;
    }
    return map;
}

static void tell_ready(int port)
{
    printf("ready %d libmodbus %u.%u.%u\n", port, libmodbus_version_major, libmodbus_version_minor,
           libmodbus_version_micro);
    fflush(stdout);
}

/* Answers until the connection ends; on a serial port for ever. */
static void serve(modbus_t *modbus, modbus_mapping_t *map, int for_ever)
{
    uint8_t query[MODBUS_RTU_MAX_ADU_LENGTH > MODBUS_TCP_MAX_ADU_LENGTH ? MODBUS_RTU_MAX_ADU_LENGTH
                                                                        : MODBUS_TCP_MAX_ADU_LENGTH];
    modbus_set_byte_timeout(modbus, PATIENCE_SECONDS, 0);
    for (;;) {
        int length = modbus_receive(modbus, query);
        if (length > 0) {
            modbus_reply(modbus, query, length, map);
        } else if (length < 0 && !for_ever) {
            return;
        }
    }
}

static int serve_tcp(modbus_mapping_t *map)
{
    modbus_t *modbus = modbus_new_tcp("127.0.0.1", 0);
    int listener = modbus ? modbus_tcp_listen(modbus, 1) : -1;
    struct sockaddr_in address;
    socklen_t size = sizeof address;
    if (listener < 0 || getsockname(listener, (struct sockaddr *)&address, &size) != 0) {
        return fail("listening");
    }
    tell_ready(ntohs(address.sin_port));
    while (modbus_tcp_accept(modbus, &listener) >= 0) {
        serve(modbus, map, 0);
        modbus_close(modbus);
    }
    return fail("accepting");
}

static int serve_rtu(const char *path, modbus_mapping_t *map)
{
    modbus_t *modbus = modbus_new_rtu(path, 115200, 'N', 8, 1);
    if (!modbus || modbus_set_slave(modbus, 1) != 0 || modbus_connect(modbus) != 0) {
        return fail(path);
    }
    tell_ready(0);
    serve(modbus, map, 1);
    return 0;
}

int main(int count, char **arguments)
{
    modbus_mapping_t *map = registers();
    if (!map) {
        return fail("registers");
    }
    if (count == 2 && strcmp(arguments[1], "tcp") == 0) {
        return serve_tcp(map);
    }
    if (count == 3 && strcmp(arguments[1], "rtu") == 0) {
        return serve_rtu(arguments[2], map);
    }
    fprintf(stderr, "usage: server tcp | server rtu PATH\n");
    return 2;
}
