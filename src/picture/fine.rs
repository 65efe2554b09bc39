//! plotters places things on whole steps. Steps of a pixel make a shallow curve ragged: these are finer.

use plotters_backend::{
    BackendColor, BackendCoord, BackendStyle, BackendTextStyle, DrawingBackend, DrawingErrorKind,
};
use plotters_canvas::CanvasBackend;

/// Steps in a pixel of the canvas.
pub const FINE: f64 = 8.0;

/// A canvas that is scaled to finer steps, and says so.
pub struct FineCanvas(pub CanvasBackend);

type Painted = Result<(), DrawingErrorKind<<CanvasBackend as DrawingBackend>::ErrorType>>;

impl DrawingBackend for FineCanvas {
    type ErrorType = <CanvasBackend as DrawingBackend>::ErrorType;

    fn get_size(&self) -> (u32, u32) {
        let (width, height) = self.0.get_size();
        (width * FINE as u32, height * FINE as u32)
    }
    fn ensure_prepared(&mut self) -> Painted {
        self.0.ensure_prepared()
    }
    fn present(&mut self) -> Painted {
        self.0.present()
    }
    fn draw_pixel(&mut self, at: BackendCoord, colour: BackendColor) -> Painted {
        self.0.draw_pixel(at, colour)
    }
    fn draw_line<S: BackendStyle>(&mut self, from: BackendCoord, to: BackendCoord, style: &S) -> Painted {
        self.0.draw_line(from, to, style)
    }
    fn draw_rect<S: BackendStyle>(
        &mut self,
        from: BackendCoord,
        to: BackendCoord,
        style: &S,
        fill: bool,
    ) -> Painted {
        self.0.draw_rect(from, to, style, fill)
    }
    fn draw_path<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        path: I,
        style: &S,
    ) -> Painted {
        self.0.draw_path(path, style)
    }
    fn draw_circle<S: BackendStyle>(
        &mut self,
        center: BackendCoord,
        radius: u32,
        style: &S,
        fill: bool,
    ) -> Painted {
        self.0.draw_circle(center, radius, style, fill)
    }
    fn fill_polygon<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        corners: I,
        style: &S,
    ) -> Painted {
        self.0.fill_polygon(corners, style)
    }
    fn draw_text<S: BackendTextStyle>(&mut self, text: &str, style: &S, at: BackendCoord) -> Painted {
        self.0.draw_text(text, style, at)
    }
    fn estimate_text_size<S: BackendTextStyle>(
        &self,
        text: &str,
        style: &S,
    ) -> Result<(u32, u32), DrawingErrorKind<Self::ErrorType>> {
        self.0.estimate_text_size(text, style)
    }
}
