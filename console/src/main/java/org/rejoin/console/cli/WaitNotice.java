package org.rejoin.console.cli;

import java.io.PrintWriter;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;

/** Says on a terminal what is being done, once it has taken two seconds and then every few: nobody sits before silence. */
final class WaitNotice {

    private static final long FIRST_S = 2;
    private static final long EVERY_S = 5;

    private final CountDownLatch done = new CountDownLatch(1);

    private WaitNotice() {}

    /**
     * Begins to wait.
     *
     * @param what is being done, as "reading chart.424"
     * @param err told, where it is a terminal
     * @return to be told when it is done
     */
    static WaitNotice with(String what, PrintWriter err) {
        WaitNotice patience = new WaitNotice();
        if (Terminal.attached()) {
            patience.start(what, err, FIRST_S, EVERY_S);
        }
        return patience;
    }

    private void start(String what, PrintWriter err, long firstS, long everyS) {
        Thread thread = new Thread(
                () -> {
                    long seconds = firstS;
                    try {
                        while (!done.await(seconds == firstS ? firstS : everyS, TimeUnit.SECONDS)) {
                            err.println("rejoin: " + what + ", " + seconds + " s so far");
                            seconds += everyS;
                        }
                    } catch (InterruptedException e) {
                        Thread.currentThread().interrupt();
                    }
                },
                "patience");
        thread.setDaemon(true);
        thread.start();
    }

    void over() {
        done.countDown();
    }
}
