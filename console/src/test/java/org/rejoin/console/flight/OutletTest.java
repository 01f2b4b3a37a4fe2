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
class OutletTest {

    @Test
    void aTakerThatThrowsIsAskedAgainForTheNextLine() {
        List<String> taken = new CopyOnWriteArrayList<>();
        Outlet<String> outlet = new Outlet<>("test", line -> {
            if (line.equals("bad")) {
                throw new IllegalStateException("as a file system may");
            }
            taken.add(line);
        });
        for (String line : List.of("a", "bad", "b", "bad", "c")) {
            outlet.offer(line);
        }
        outlet.close();
        assertThat(taken).containsExactly("a", "b", "c");
        assertThat(outlet.dropped()).isEqualTo(2);
    }

    @Test
    void whatATakerThatHangsNeverTookIsCounted() throws Exception {
        CountDownLatch hanging = new CountDownLatch(1);
        CountDownLatch let = new CountDownLatch(1);
        Outlet<String> outlet = new Outlet<>("test", line -> {
            hanging.countDown();
            try {
                let.await();
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        });
        outlet.offer("taken");
        hanging.await();
        outlet.offer("left");
        outlet.offer("left");
        outlet.close();
        assertThat(outlet.dropped()).isEqualTo(2);
        let.countDown();
    }
}
