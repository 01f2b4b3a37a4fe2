package org.rejoin.console.cli;

import java.util.concurrent.atomic.AtomicReference;

/** Ctrl-C and TERM end a flight in order: last events, grade, files. */
final class Interrupts {

    private static final AtomicReference<Thread> HOOK = new AtomicReference<>();

    private Interrupts() {}

    static void onInterrupt(Runnable end) {
        Thread hook = new Thread(end, "interrupt");
        HOOK.set(hook);
        Runtime.getRuntime().addShutdownHook(hook);
    }

    /** The flight ended by itself. */
    static void done() {
        Thread hook = HOOK.getAndSet(null);
        if (hook != null) {
            try {
                Runtime.getRuntime().removeShutdownHook(hook);
            } catch (IllegalStateException e) {
                // Already shutting down: the hook runs, and closing twice does nothing.
                Thread.onSpinWait();
            }
        }
    }
}
