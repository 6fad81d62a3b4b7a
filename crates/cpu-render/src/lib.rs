//! Draws what egui painted on the processor, so that pictures in tests need no display, no GPU and
//! no driver, and are the same on every machine.
//!
//! Triangles are filled by the top-left rule in 1/256 of a pixel, textures are sampled
//! bilinearly, colors are multiplied and blended in gamma space with premultiplied alpha: what
//! egui's own backends do, at their predictable settings.

mod raster;
mod texture;

use std::collections::HashMap;

use egui::epaint::{ClippedPrimitive, ImageDelta, Primitive};
use egui::{Color32, TextureId, TexturesDelta};
use egui_kittest::TestRenderer;
use image::RgbaImage;
use raster::Target;
use texture::Texture;

/// A renderer for `egui_kittest`.
#[derive(Default)]
pub struct CpuRenderer {
    textures: HashMap<TextureId, Texture>,
}

impl CpuRenderer {
    fn update(&mut self, id: TextureId, delta: &ImageDelta) {
        let egui::ImageData::Color(image) = &delta.image;
        match delta.pos {
            None => {
                self.textures.insert(id, Texture::new(image));
            }
            Some(position) => {
                if let Some(texture) = self.textures.get_mut(&id) {
                    texture.patch(position, image);
                }
            }
        }
    }

    fn draw(&self, primitives: &[ClippedPrimitive], pixels_per_point: f32, target: &mut Target) {
        for ClippedPrimitive {
            clip_rect,
            primitive,
        } in primitives
        {
            let Primitive::Mesh(mesh) = primitive else {
                continue;
            };
            let Some(texture) = self.textures.get(&mesh.texture_id) else {
                continue;
            };
            target.clip(*clip_rect, pixels_per_point);
            for corners in mesh.indices.chunks_exact(3) {
                let vertex = |at: usize| {
                    let index = *corners.get(at)?;
                    mesh.vertices.get(usize::try_from(index).ok()?)
                };
                if let (Some(a), Some(b), Some(c)) = (vertex(0), vertex(1), vertex(2)) {
                    target.triangle([a, b, c], texture, pixels_per_point);
                }
            }
        }
    }
}

impl TestRenderer for CpuRenderer {
    fn handle_delta(&mut self, delta: &mut TexturesDelta) {
        // Each texture has its own entry, so their order does not matter.
        let mut set: Vec<_> = delta.set.drain().collect();
        set.sort_by_key(|(id, _)| *id);
        for (id, images) in set {
            for image in images {
                self.update(id, &image);
            }
        }
        let freed: Vec<_> = delta.free.drain().collect();
        for id in freed {
            self.textures.remove(&id);
        }
    }

    fn render(
        &mut self,
        ctx: &egui::Context,
        output: &egui::FullOutput,
    ) -> Result<RgbaImage, String> {
        let pixels_per_point = ctx.pixels_per_point();
        let size = ctx.content_rect().size() * pixels_per_point;
        let mut target = Target::new(size);
        let primitives = ctx.tessellate(output.shapes.clone(), pixels_per_point);
        self.draw(&primitives, pixels_per_point, &mut target);
        let (width, height) = target.size();
        let bytes = target
            .pixels()
            .iter()
            .flat_map(Color32::to_srgba_unmultiplied);
        RgbaImage::from_raw(width, height, bytes.collect())
            .ok_or_else(|| "the picture has another size than its pixels".to_owned())
    }
}
