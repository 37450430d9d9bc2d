/*
 * A Modbus server with a register image, from an independent library.
 *
 * usage: libmodbus-device PORT IMAGE.txt [writable]     Modbus TCP, one connection at a time
 *        libmodbus-device /PATH IMAGE.txt [writable]    RTU on a serial port, 9600 8N1
 * The image is fixed unless it is writable: then functions 5, 6, 15, 16 and 22 change what is there.
 * image: see every-format/registers.txt; unit 1. The library has no RTU over TCP and no exception code past 11.
 */
#include <errno.h>
#include <modbus/modbus.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define ADDRESSES 65536
#define NOTHING_THERE MODBUS_EXCEPTION_ILLEGAL_DATA_ADDRESS

/* In the order of the functions that read them: 1 to 4. */
static const char *const TABLES[] = {"coil", "discrete-input", "holding-register", "input-register"};

/* What a request that touches an address is refused with; 0 where it is answered. */
static unsigned char refusal[4][ADDRESSES];

static int writable;

static void fail(const char *what, const char *detail)
{
    fprintf(stderr, "%s: %s\n", what, detail);
    exit(2);
}

static void set(modbus_mapping_t *map, int table, long address, const char *word)
{
    if (address < 0 || address >= ADDRESSES) {
        fail("no such address", word);
    }
    if (*word == '!') {
        refusal[table][address] = (unsigned char) strtol(word + 1, NULL, 16);
        return;
    }
    long value = strtol(word, NULL, 16);
    refusal[table][address] = 0;
    switch (table) {
    case 0: map->tab_bits[address] = (uint8_t) value; break;
    case 1: map->tab_input_bits[address] = (uint8_t) value; break;
    case 2: map->tab_registers[address] = (uint16_t) value; break;
    default: map->tab_input_registers[address] = (uint16_t) value; break;
    }
}

static int table_of(const char *name)
{
    for (int table = 0; table < 4; table++) {
        if (strcmp(name, TABLES[table]) == 0) {
            return table;
        }
    }
    fail("no such table", name);
    return -1;
}

/* One line: a table, an address and the words from there on, up to a comment. */
static void read_line(modbus_mapping_t *map, char *line)
{
    line[strcspn(line, "#\r\n")] = '\0';
    const char *name = strtok(line, " \t");
    if (name == NULL) {
        return;
    }
    int table = table_of(name);
    const char *first = strtok(NULL, " \t");
    if (first == NULL) {
        fail("no address", name);
    }
    long address = strtol(first, NULL, 10);
    for (const char *word = strtok(NULL, " \t"); word != NULL; word = strtok(NULL, " \t")) {
        set(map, table, address++, word);
    }
}

static modbus_mapping_t *read_image(const char *path)
{
    modbus_mapping_t *map = modbus_mapping_new(ADDRESSES, ADDRESSES, ADDRESSES, ADDRESSES);
    FILE *file = fopen(path, "r");
    char line[4096];
    if (map == NULL || file == NULL) {
        fail(path, strerror(errno));
    }
    memset(refusal, NOTHING_THERE, sizeof refusal);
    while (fgets(line, sizeof line, file) != NULL) {
        read_line(map, line);
    }
    fclose(file);
    return map;
}

/* The table that a function reads or writes; -1 where it does neither. */
static int table_by(int function)
{
    switch (function) {
    case 1: case 2: case 3: case 4: return function - 1;
    case 5: case 15: return writable ? 0 : -1;
    case 6: case 16: case 22: return writable ? 2 : -1;
    default: return -1;
    }
}

/* The first refusal among the addresses that a request touches. */
static unsigned refusal_of(const uint8_t *pdu)
{
    int function = pdu[0];
    int table = table_by(function);
    long first = pdu[1] << 8 | pdu[2];
    long count = function == 5 || function == 6 || function == 22 ? 1 : pdu[3] << 8 | pdu[4];
    if (table == -1) {
        return MODBUS_EXCEPTION_ILLEGAL_FUNCTION;
    }
    for (long address = first; address < first + count; address++) {
        unsigned code = address < ADDRESSES ? refusal[table][address] : NOTHING_THERE;
        if (code != 0) {
            return code;
        }
    }
    return 0;
}

/* Answers until the connection or the port is gone. */
static void serve(modbus_t *line, modbus_mapping_t *map)
{
    uint8_t request[MODBUS_MAX_ADU_LENGTH];
    for (;;) {
        int length = modbus_receive(line, request);
        if (length == -1 && errno != EMBBADCRC) {
            return;
        }
        if (length <= 0) {
            continue; /* a frame that was spoilt or meant for another unit */
        }
        unsigned code = refusal_of(request + modbus_get_header_length(line));
        int sent = code == 0 ? modbus_reply(line, request, length, map) : modbus_reply_exception(line, request, code);
        if (sent == -1) {
            fprintf(stderr, "no reply: %s\n", modbus_strerror(errno));
        }
    }
}

static void serve_port(const char *path, modbus_mapping_t *map)
{
    modbus_t *line = modbus_new_rtu(path, 9600, 'N', 8, 1);
    if (line == NULL || modbus_set_slave(line, 1) == -1 || modbus_connect(line) == -1) {
        fail(path, modbus_strerror(errno));
    }
    serve(line, map);
    fail(path, modbus_strerror(errno));
}

static void serve_connections(const char *port, modbus_mapping_t *map)
{
    modbus_t *line = modbus_new_tcp("127.0.0.1", atoi(port));
    int listener = line == NULL ? -1 : modbus_tcp_listen(line, 1);
    if (listener == -1) {
        fail(port, modbus_strerror(errno));
    }
    while (modbus_tcp_accept(line, &listener) != -1) {
        serve(line, map);
        modbus_close(line);
    }
    fail(port, modbus_strerror(errno));
}

int main(int count, char **words)
{
    writable = count == 4 && strcmp(words[3], "writable") == 0;
    if (count != 3 && !writable) {
        fail("usage", "libmodbus-device PORT|/PATH IMAGE.txt [writable]");
    }
    modbus_mapping_t *map = read_image(words[2]);
    if (words[1][0] == '/') {
        serve_port(words[1], map);
    } else {
        serve_connections(words[1], map);
    }
    return 0;
}
