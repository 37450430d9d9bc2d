/* The reference: reads holding registers of unit 1 with libmodbus and says how long each read took.
 * client tcp PORT | client rtu PATH [BAUD STOP-BITS FIRST-VALUE]
 * For each line "REGISTERS WARM READS PAUSE" on standard input it connects, reads WARM times unmeasured,
 * then READS times, PAUSE nanoseconds after what came before, and disconnects. It prints the processor
 * time of the measured reads and then the time of each, in nanoseconds, on one line.
 */
#include <errno.h>
#include <modbus/modbus.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <time.h>

enum { PATIENCE_SECONDS = 5 };

/* What the first register holds; each further one holds one more. */
static int first_value = 0x1100;

static long long ticks(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return now.tv_sec * 1000000000LL + now.tv_nsec;
}

static long long nanos(struct timeval time)
{
    return time.tv_sec * 1000000000LL + time.tv_usec * 1000LL;
}

static long long processor_time(void)
{
    struct rusage usage;
    getrusage(RUSAGE_SELF, &usage);
    return nanos(usage.ru_utime) + nanos(usage.ru_stime);
}

static void pause_for(long long pause)
{
    struct timespec left = {pause / 1000000000LL, pause % 1000000000LL};
    while (pause > 0 && nanosleep(&left, &left) != 0 && errno == EINTR) {
    }
}

/* Values that are not those of the server end the run: what is wrong is not worth measuring. */
static long long read_once(modbus_t *modbus, int registers)
{
    uint16_t values[MODBUS_MAX_READ_REGISTERS];
    long long begin = ticks();
    int got = modbus_read_registers(modbus, 0, registers, values);
    long long took = ticks() - begin;
    if (got != registers) {
        fprintf(stderr, "client: reading: %s\n", modbus_strerror(errno));
        exit(1);
    }
    for (int i = 0; i < registers; i++) {
        if (values[i] != first_value + i) {
            fprintf(stderr, "client: register %d held %d\n", i, values[i]);
            exit(1);
        }
    }
    return took;
}

static void one_round(modbus_t *modbus, int registers, int warm, int reads, long long pause)
{
    long long *took = malloc(sizeof *took * reads);
    if (!took || modbus_connect(modbus) != 0) {
        fprintf(stderr, "client: connecting: %s\n", modbus_strerror(errno));
        exit(1);
    }
    for (int i = 0; i < warm; i++) {
        pause_for(pause);
        read_once(modbus, registers);
    }
    long long begin = processor_time();
    for (int i = 0; i < reads; i++) {
        pause_for(pause);
        took[i] = read_once(modbus, registers);
    }
    long long used = processor_time() - begin;
    modbus_close(modbus);
    printf("%lld", used);
    for (int i = 0; i < reads; i++) {
        printf(" %lld", took[i]);
    }
    printf("\n");
    fflush(stdout);
    free(took);
}

int main(int count, char **arguments)
{
    modbus_t *modbus = NULL;
    if (count == 3 && strcmp(arguments[1], "tcp") == 0) {
        modbus = modbus_new_tcp("127.0.0.1", atoi(arguments[2]));
    } else if (count == 3 && strcmp(arguments[1], "rtu") == 0) {
        modbus = modbus_new_rtu(arguments[2], 115200, 'N', 8, 1);
    } else if (count == 6 && strcmp(arguments[1], "rtu") == 0) {
        modbus = modbus_new_rtu(arguments[2], atoi(arguments[3]), 'N', 8, atoi(arguments[4]));
        first_value = atoi(arguments[5]);
    }
    if (!modbus || modbus_set_slave(modbus, 1) != 0) {
        fprintf(stderr, "usage: client tcp PORT | client rtu PATH [BAUD STOP-BITS FIRST-VALUE]\n");
        return 2;
    }
    /* A machine that is busy with other things must not end the run. */
    modbus_set_response_timeout(modbus, PATIENCE_SECONDS, 0);
    modbus_set_byte_timeout(modbus, PATIENCE_SECONDS, 0);
    int registers, warm, reads;
    long long pause;
    while (scanf("%d %d %d %lld", &registers, &warm, &reads, &pause) == 4) {
        one_round(modbus, registers, warm, reads, pause);
    }
    modbus_free(modbus);
    return 0;
}
