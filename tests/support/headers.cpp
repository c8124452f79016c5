// The translation unit that the precompiled headers of the tests belong to.
