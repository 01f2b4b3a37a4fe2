package org.rejoin.console.flight;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** A taker in trouble costs the lines it fails at, never those that follow. */
@Timeout(value = 30, unit = TimeUnit.SECONDS)
class OutputQueueTest {

    @Test
    void aTakerThatThrowsIsAskedAgainForTheNextLine() {
        List<String> taken = new CopyOnWriteArrayList<>();
        OutputQueue<String> output = new OutputQueue<>("test", line -> {
            if (line.equals("bad")) {
                throw new IllegalStateException("as a file system may");
            }
            taken.add(line);
        });
        for (String line : List.of("a", "bad", "b", "bad", "c")) {
            output.offer(line);
        }
        output.close();
        assertThat(taken).containsExactly("a", "b", "c");
        assertThat(output.dropped()).isEqualTo(2);
    }

    @Test
    void whatATakerThatHangsNeverTookIsCounted() throws Exception {
        CountDownLatch hanging = new CountDownLatch(1);
        CountDownLatch let = new CountDownLatch(1);
        OutputQueue<String> output = new OutputQueue<>("test", line -> {
            hanging.countDown();
            try {
                let.await();
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        });
        output.offer("taken");
        hanging.await();
        output.offer("left");
        output.offer("left");
        output.close();
        assertThat(output.dropped()).isEqualTo(2);
        let.countDown();
    }
}
