/*
 * Runs a program on a simulated ATmega328P with a chain of registers on its pins, and prints what they do.
 *
 *     chain_on_pins PROGRAM.elf CHIPS DATA CLOCK LATCH ENABLE CYCLES [TYPED]
 *
 * Pins such as B3; 0 cycles: to its end; TYPED goes to the serial line, a letter in 8000 cycles, from 100000 on.
 *
 * latch CYCLE LEVEL BYTE...   level of output-enable; outputs of the chips from the controller on, after a rising edge of latch
 * mark VALUE CYCLE LOW  the program wrote VALUE to GPIOR0; LOW cycles with output-enable low so far
 * said VALUE            the program wrote VALUE to GPIOR1
 * lit CYCLE             output-enable low for the first time
 * end CYCLE BYTES       the program sleeps; bytes that the serial unit sent
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <simavr/avr_ioport.h>
#include <simavr/avr_spi.h>
#include <simavr/avr_timer.h>
#include <simavr/avr_uart.h>
#include <simavr/sim_avr.h>
#include <simavr/sim_elf.h>

enum { GPIOR0_AT = 0x3E, GPIOR1_AT = 0x4A, TCCR1A_AT = 0x80, LIMIT = 60000000 };

typedef struct {
    char port;
    int bit;
} pin;

static avr_t *avr;
static pin enable;
static unsigned char stage[64], output[64];
static int chips, data_level, clock_level, latch_level;
static unsigned long long low_cycles, serial_bytes;
static int pulse_level = 1, lit_before;

static void shift(int bit)
{
    for (int chip = 0; chip < chips; chip++) {
        int out = stage[chip] >> 7;
        stage[chip] = (unsigned char)(stage[chip] << 1 | bit);
        bit = out;
    }
}

/* The level on the enable pin: pulled up while it is an input, from the timer while it has the pin. */
static int enable_level(pin at)
{
    unsigned base = 0x23u + 3u * (unsigned)(at.port - 'B');
    int driven = avr->data[base + 1] >> at.bit & 1;
    int by_timer = avr->data[TCCR1A_AT] >> (at.bit == 1 ? 6 : 4) & 3;
    if (!driven) {
        return 1;
    }
    return by_timer ? pulse_level : avr->data[base + 2] >> at.bit & 1;
}

static void on_data(struct avr_irq_t *irq, uint32_t value, void *param)
{
    (void)irq, (void)param;
    data_level = value & 1;
}

static void on_clock(struct avr_irq_t *irq, uint32_t value, void *param)
{
    (void)irq, (void)param;
    if ((value & 1) && !clock_level) {
        shift(data_level);
    }
    clock_level = value & 1;
}

static void on_latch(struct avr_irq_t *irq, uint32_t value, void *param)
{
    (void)irq, (void)param;
    if ((value & 1) && !latch_level) {
        memcpy(output, stage, sizeof output);
        printf("latch %llu %d", (unsigned long long)avr->cycle, enable_level(enable));
        for (int chip = 0; chip < chips; chip++) {
            printf(" %u", output[chip]);
        }
        puts("");
    }
    latch_level = value & 1;
}

static void on_serial(struct avr_irq_t *irq, uint32_t value, void *param)
{
    (void)irq, (void)param;
    serial_bytes++;
    for (int bit = 7; bit >= 0; bit--) {
        shift(value >> bit & 1);
    }
}

static void on_pulse(struct avr_irq_t *irq, uint32_t value, void *param)
{
    (void)irq, (void)param;
    pulse_level = value & 1;
}

static void on_mark(struct avr_t *a, avr_io_addr_t addr, uint8_t value, void *param)
{
    (void)param;
    a->data[addr] = value;
    printf("mark %u %llu %llu\n", value, (unsigned long long)a->cycle, low_cycles);
}

static void on_said(struct avr_t *a, avr_io_addr_t addr, uint8_t value, void *param)
{
    (void)param;
    a->data[addr] = value;
    printf("said %u\n", value);
}

static pin read_pin(const char *text)
{
    pin found = {text[0], atoi(text + 1)};
    return found;
}

static void listen(pin at, avr_irq_notify_t call)
{
    avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ(at.port), at.bit), call, 0);
}

int main(int count, char **word)
{
    static elf_firmware_t program;
    int state = cpu_Running;

    if (count < 8 || elf_read_firmware(word[1], &program)) {
        return 2;
    }
    chips = atoi(word[2]);
    avr = avr_make_mcu_by_name("atmega328p");
    if (!avr) {
        return 3;
    }
    avr_init(avr);
    avr->log = LOG_ERROR;
    avr_load_firmware(avr, &program);
    avr->frequency = 16000000;
    enable = read_pin(word[6]);
    unsigned long long most = strtoull(word[7], 0, 10), limit = most ? most : LIMIT;
    listen(read_pin(word[3]), on_data);
    listen(read_pin(word[4]), on_clock);
    listen(read_pin(word[5]), on_latch);
    avr_irq_register_notify(
        avr_io_getirq(avr, AVR_IOCTL_TIMER_GETIRQ('1'), TIMER_IRQ_OUT_COMP + (enable.bit == 1 ? 0 : 1)), on_pulse, 0);
    avr_irq_t *serial = avr_io_getirq(avr, AVR_IOCTL_SPI_GETIRQ('0'), SPI_IRQ_OUTPUT);
    if (!serial) {
        serial = avr_io_getirq(avr, AVR_IOCTL_SPI_GETIRQ(0), SPI_IRQ_OUTPUT);
    }
    if (serial) {
        avr_irq_register_notify(serial, on_serial, 0);
    }
    const char *typed = count > 8 ? word[8] : "";
    unsigned long long next_letter = 100000;
    avr_irq_t *line = avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_INPUT);
    uint32_t quiet = 0;
    avr_ioctl(avr, AVR_IOCTL_UART_SET_FLAGS('0'), &quiet);
    avr_register_io_write(avr, GPIOR0_AT, on_mark, 0);
    avr_register_io_write(avr, GPIOR1_AT, on_said, 0);
    while (state != cpu_Done && state != cpu_Crashed && avr->cycle < limit) {
        unsigned long long before = avr->cycle;
        int level = enable_level(enable);

        if (*typed && avr->cycle > next_letter) {
            avr_raise_irq(line, (unsigned char)*typed++);
            next_letter = avr->cycle + 8000;
        }
        state = avr_run(avr);
        if (!level) {
            low_cycles += avr->cycle - before;
            if (!lit_before++) {
                printf("lit %llu\n", before);
            }
        }
    }
    printf("end %llu %llu\n", (unsigned long long)avr->cycle, serial_bytes);
    return !most && state != cpu_Done;
}
