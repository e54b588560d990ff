/* An I/O module made of libmodbus: an implementation of the protocol that is not ours. Answers on a serial port until it is
 * stopped. Input registers show what was written to the holding registers of the same number; discrete inputs show the coils. */
#include <errno.h>
#include <modbus.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int main(int argc, char **argv) {
    uint8_t query[MODBUS_RTU_MAX_ADU_LENGTH];
    modbus_mapping_t *map = modbus_mapping_new(32, 32, 32, 32);
    if (argc != 3 || map == NULL) {
        return 2;
    }
    modbus_t *ctx = modbus_new_rtu(argv[1], 115200, 'N', 8, 1);
    if (ctx == NULL || modbus_set_slave(ctx, atoi(argv[2])) != 0 || modbus_connect(ctx) != 0) {
        fprintf(stderr, "%s: %s\n", argv[1], modbus_strerror(errno));
        return 1;
    }
    puts("ready");
    fflush(stdout);
    for (;;) {
        int length = modbus_receive(ctx, query);
        if (length > 0) {
            memcpy(map->tab_input_bits, map->tab_bits, 32);
            memcpy(map->tab_input_registers, map->tab_registers, 32 * sizeof(uint16_t));
            if (modbus_reply(ctx, query, length, map) == -1) {
                return 1;
            }
        } else if (length == -1 && errno != EMBBADCRC && errno != ETIMEDOUT) {
            return 0;
        }
    }
}
