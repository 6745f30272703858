// Package gltf writes a site as a 3D scene in the open format glTF 2.0
// (Khronos Group, ISO/IEC 12113:2022), so that any viewer can show the model
// and any ray tracer can check the shading.
//
// Lengths are metres. As the format asks, y is up: east is +x, up is +y and
// south is +z; the origin is the site's. Every wall, window, roof plane,
// crown, trunk, fence and neighbour is a node of its own with a name, and
// carries what the shading needs to know in the node's extras, such as
// transmissivity_in_leaf and owner. Crowns and trunks are closed meshes.
package gltf
