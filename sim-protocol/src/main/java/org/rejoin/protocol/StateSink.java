package org.rejoin.protocol;

/** Takes what a decoder finds in the datagrams of one sender, in order. Called on the decoder's thread. */
public interface StateSink {

    /** A usable sample; good only until this returns. */
    void sample(StateView sample);

    /** Anything else: a control, bad input, or what is no position. */
    void other(Decoded.Other found);
}
