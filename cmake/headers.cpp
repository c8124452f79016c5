// The translation unit that the precompiled headers of the rooms belong to.
