package org.rejoin.console.live;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;

import org.junit.jupiter.api.RepeatedTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** However work races with the end of a flight: done once or told once, and nothing done after the end. */
@Timeout(value = 30, unit = TimeUnit.SECONDS)
class FlightThreadTest {

    private static boolean given(ExecutorService thread, Runnable work) {
        try {
            thread.execute(work);
            return true;
        } catch (RejectedExecutionException e) {
            return false;
        }
    }

    @RepeatedTest(20)
    void eachIsDoneOrToldAndNothingIsDoneAfterTheEnd() throws Exception {
        ExecutorService flight = Executors.newSingleThreadExecutor();
        FlightThread flightThread = new FlightThread(work -> given(flight, work));
        AtomicBoolean ended = new AtomicBoolean();
        AtomicInteger doneAfterTheEnd = new AtomicInteger();
        int browsers = 4;
        int each = 500;
        List<AtomicInteger> answers = new ArrayList<>();
        for (int i = 0; i < browsers * each; i++) {
            answers.add(new AtomicInteger());
        }
        CountDownLatch someDone = new CountDownLatch(100);
        ExecutorService asking = Executors.newFixedThreadPool(browsers);
        for (int b = 0; b < browsers; b++) {
            int first = b * each;
            asking.execute(() -> {
                for (int i = first; i < first + each; i++) {
                    AtomicInteger answer = answers.get(i);
                    flightThread.execute(
                            () -> {
                                doneAfterTheEnd.addAndGet(ended.get() ? 1 : 0);
                                answer.addAndGet(1);
                                someDone.countDown();
                            },
                            () -> answer.addAndGet(1_000));
                }
            });
        }
        someDone.await();
        flight.execute(() -> {
            flightThread.over();
            ended.set(true);
        });
        // Work that waits is thrown away here, as by a thread that does not answer.
        flight.shutdownNow();
        flightThread.close();
        asking.shutdown();
        assertThat(asking.awaitTermination(10, TimeUnit.SECONDS)).isTrue();
        assertThat(flight.awaitTermination(10, TimeUnit.SECONDS)).isTrue();
        assertThat(answers).allMatch(answer -> answer.get() == 1 || answer.get() == 1_000);
        assertThat(doneAfterTheEnd).hasValue(0);
    }

    @Test
    void workThatHangsBeforeTheEndIsNotDoneWhenItComesBack() {
        List<Runnable> held = new ArrayList<>();
        FlightThread flightThread = new FlightThread(held::add);
        List<String> heard = new ArrayList<>();
        flightThread.execute(() -> heard.add("done"), () -> heard.add("too late"));
        assertThat(heard).isEmpty();
        flightThread.close();
        assertThat(heard).containsExactly("too late");
        held.forEach(Runnable::run);
        assertThat(heard).containsExactly("too late");
    }
}
