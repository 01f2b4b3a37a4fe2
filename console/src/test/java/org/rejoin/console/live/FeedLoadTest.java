package org.rejoin.console.live;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class FeedLoadTest {

    private final FeedLoad load = new FeedLoad();

    @Test
    void beingBehindIsSaidAgainWhenItDoublesAndWhenItIsOver() {
        assertThat(load.look(1.9, 0)).isEmpty();
        assertThat(load.look(2.2, 0)).containsExactly("Rejoin is 2 s behind what is sent");
        assertThat(load.look(4, 0)).isEmpty();
        assertThat(load.look(5, 0)).containsExactly("Rejoin is 5 s behind what is sent");
        assertThat(load.look(1, 0)).isEmpty();
        assertThat(load.look(0.2, 0)).containsExactly("Rejoin is up to date again");
        assertThat(load.look(0, 0)).isEmpty();
    }

    @Test
    void whatTheSystemDroppedIsSaidAgainWhenItDoubles() {
        assertThat(load.look(0, 0)).isEmpty();
        assertThat(load.look(0, 3)).singleElement().asString().startsWith("3 datagrams were lost in the system");
        assertThat(load.look(0, 5)).isEmpty();
        assertThat(load.look(0, 6)).singleElement().asString().startsWith("6 ");
    }
}
