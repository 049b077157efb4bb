/* Read before every source of the firmware: what it keeps goes into sections of its own, so that
 * power_up() can put back what a reset would. */
#pragma clang section bss = "firmware_zeros" data = "firmware_values"
