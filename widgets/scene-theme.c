#include "scene-pen.h"

#define INK(hex) { ((hex) >> 16 & 255) / 255.0, ((hex) >> 8 & 255) / 255.0, ((hex) & 255) / 255.0 }

static const struct palette palettes[] = {
  [SCENE_LIGHT] = { INK (0xfbfaf7), INK (0x1d2129), INK (0x7b7a74), INK (0x595b60), INK (0xefece5), INK (0xdcdcda),
                    INK (0xb9b9b6), INK (0xe6eeec), INK (0xb3261e), INK (0xc5d8cf), false },
  [SCENE_DARK] = { INK (0x1b1d21), INK (0xe8e6e1), INK (0x8f8e89), INK (0xb4b2ac), INK (0x33353a), INK (0x4b4e55),
                   INK (0x6b6e76), INK (0x22302f), INK (0xff8a7a), INK (0x3c5a4e), false },
  [SCENE_LIGHT_CONTRAST] = { INK (0xffffff), INK (0x000000), INK (0x333333), INK (0x1a1a1a), INK (0xffffff),
                             INK (0xd0d0d0), INK (0xa0a0a0), INK (0xf2f6f6), INK (0x9a0000), INK (0xb0d0c0), true },
  [SCENE_DARK_CONTRAST] = { INK (0x000000), INK (0xffffff), INK (0xcccccc), INK (0xf0f0f0), INK (0x000000),
                            INK (0x555555), INK (0x808080), INK (0x0c1c1c), INK (0xffb0a0), INK (0x2f6a50), true },
  [SCENE_PRINT] = { INK (0xffffff), INK (0x000000), INK (0x555555), INK (0x333333), INK (0xffffff), INK (0xe8e8e8),
                    INK (0xc4c4c4), INK (0xf4f7f7), INK (0x7a1510), INK (0xd8e4de), false },
};

const struct palette *
scene_palette (enum scene_theme theme)
{
  return &palettes[theme <= SCENE_PRINT ? theme : SCENE_LIGHT];
}
