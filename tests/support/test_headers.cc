// Nothing of its own: the library stands for the headers that are precompiled with it.
