package org.rejoin.console.cli;

import java.util.concurrent.atomic.AtomicReference;
import java.util.function.IntSupplier;

/** Ctrl-C and TERM end a flight in order: last events, grade, files. */
final class Interrupts {

    private static final AtomicReference<Thread> HOOK = new AtomicReference<>();

    private Interrupts() {}

    /** Ends the program with exit code 0 when it is interrupted: that is how a flight ends. */
    static void endOnInterrupt(Runnable end) {
        onInterrupt(end, () -> Rejoin.DONE);
    }

    /** Ends the program when it is interrupted, once all is written and printed, with an exit code that is known only then. */
    static void onInterrupt(Runnable end, IntSupplier code) {
        Thread hook = new Thread(
                () -> {
                    try {
                        end.run();
                    } finally {
                        // The code of a program that a signal ends would be 130 or 143, as if it had failed.
                        Runtime.getRuntime().halt(code.getAsInt());
                    }
                },
                "interrupt");
        try {
            Runtime.getRuntime().addShutdownHook(hook);
            HOOK.set(hook);
        } catch (IllegalStateException e) {
            // Interrupted already: what was to be done then is being done.
        }
    }

    /** The flight ended by itself. */
    static void done() {
        Thread hook = HOOK.getAndSet(null);
        if (hook != null) {
            try {
                Runtime.getRuntime().removeShutdownHook(hook);
            } catch (IllegalStateException e) {
                // Already shutting down: the hook runs, and closing twice does nothing.
            }
        }
    }
}
