#ifndef AVR_SLEEP_H
#define AVR_SLEEP_H

void chip_sleep(void);

#define sleep_enable() ((void)0)
#define sleep_disable() ((void)0)
#define sleep_cpu() chip_sleep()

#endif
